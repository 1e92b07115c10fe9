package desk

import "sort"

// vocabulary is every call of the page by name.
func vocabulary() map[string]call {
	all := map[string]call{}
	for _, part := range []map[string]call{loadCalls(), wareCalls(), handCalls(), pictureCalls(), eyeCalls(), jobCalls(), wayCalls()} {
		for name, do := range part {
			all[name] = do
		}
	}
	return all
}

// Methods lists the names of all calls, sorted.
func Methods() []string {
	all := vocabulary()
	names := make([]string, 0, len(all))
	for name := range all {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}
