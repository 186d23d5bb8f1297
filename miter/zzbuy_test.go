package miter_test
import ("testing";"context";"fmt";"time";"listel/library";"listel/miter")
func TestZZ(t *testing.T){
 l:=library.Open("","")
 for _,n:=range []string{"herb-press","seed-cabinet"} {
  c,_,_,err:=l.CaseSource(n); if err!=nil {t.Fatal(err)}
  r,err:=miter.Fit(c,l.SectionOf,l.Wood); if err!=nil {t.Fatal(err)}
  p,err:=miter.Buy(c,r); if err!=nil {t.Fatal(err)}
  for i,b:=range p.Blanks { fmt.Printf("%-30s %6.3f x %6.3f in  slant %+v turn %v\n",b.Key,b.Width/25.4,b.Thickness/25.4,b.Slant,p.Job.Profiles[i].Turn)}
  for _,q:=range p.Job.Pieces { fmt.Printf("  %s %s %.2f x%d %s %d\n",q.Mark,q.Profile,q.Length/25.4,q.Count,q.Wrap,q.Order)}
  t0:=time.Now(); plan,err:=p.Solve(context.Background(),0)
  fmt.Println(n,time.Since(t0),err,plan.Proven,plan.LeftProven,plan.Cost,plan.LowerBound,plan.Nodes,plan.Messages)
  for _,b:=range plan.Boards{fmt.Println(b)}
  for _,b:=range plan.Buy{fmt.Println(b)}
 }
}
