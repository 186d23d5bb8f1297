package sheet

import (
	"fmt"
	"image/png"
	"io"
	"math"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"

	"listel/profile/geom"
)

// maxPixels is the largest image that is made.
const maxPixels = 100e6

// WritePNG writes a preview of one page as a PNG image on white, so many dots to the mm: 4 for the screen, 10 to look
// closely. It returns the error of w, of a page that cannot be printed, or of an image over 100 megapixels.
func WritePNG(w io.Writer, page Page, dotsPerMM float64) error {
	if err := page.check(); err != nil {
		return err
	}
	if !(dotsPerMM >= 0.5 && dotsPerMM <= 100) {
		return fmt.Errorf("%s dots to the mm; it must be from 0.5 to 100", num(dotsPerMM, 2))
	}
	if n := page.Paper.Width * page.Paper.Height * dotsPerMM * dotsPerMM; n > maxPixels {
		return fmt.Errorf("the image would have %s megapixels; the limit is 100", num(math.Ceil(n/1e6), 0))
	}
	c := canvas.New(page.Paper.Width, page.Paper.Height)
	all := FillBox(geom.Rect{Max: geom.Pt(page.Paper.Width, page.Paper.Height)}, 1)
	Drawing{all, page.Drawing()}.render(wrapper{to: c, raster: true})
	img := rasterizer.Draw(c, canvas.DPMM(dotsPerMM), canvas.DefaultColorSpace)
	if err := png.Encode(w, img); err != nil {
		return fmt.Errorf("PNG: %w", err)
	}
	return nil
}
