package planner

var Dbg = map[string]*[6]float64{}

func dbg2(name string, was, best, now *candidate, work int64) {
	d := Dbg[name]
	if d == nil {
		d = &[6]float64{}
		Dbg[name] = d
	}
	d[0]++
	d[1] += float64(work)
	if now != nil && now.beats(was) {
		d[2]++
		d[3] += now.value - was.value
	}
	if now != nil && now.beats(best) {
		d[4]++
		d[5] += now.value - best.value
	}
}
