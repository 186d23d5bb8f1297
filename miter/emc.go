package miter

// The range of air for which moisture is found: that of the printed table, and of humidities that a room can have.
const (
	LeastHumidity = 5.0  // per cent
	MostHumidity  = 95.0 // per cent
	LeastCelsius  = -1.5 // the table begins at 30 F
	MostCelsius   = 93.5 // and is printed to 200 F
)

// EMC returns the moisture content, in per cent of its dry weight, that wood comes to in air of the given temperature and
// relative humidity (per cent, 5 to 95). It is equation 4-5 of the Wood Handbook (USDA Forest Products Laboratory, FPL-GTR-190, 2010), with
// the parameters for degrees Celsius.
func EMC(celsius, humidity float64) float64 {
	t, h := celsius, humidity/100
	w := 349 + 1.29*t + 0.0135*t*t
	k := 0.805 + 0.000736*t - 0.00000273*t*t
	k1 := 6.27 - 0.00938*t - 0.000303*t*t
	k2 := 1.91 + 0.0407*t - 0.000293*t*t
	kh := k * h
	return 1800 / w * (kh/(1-kh) + (k1*kh+2*k1*k2*kh*kh)/(1+k1*kh+k1*k2*kh*kh))
}
