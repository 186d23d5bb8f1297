package cutter

func (s *search) advise(r *Result, p plan, bound int) error { return nil }
