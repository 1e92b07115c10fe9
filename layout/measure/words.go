package measure

// Words is the person's choice of trade words. The zero value speaks US.
type Words string

const (
	US Words = "us" // shelf, post, spyhole, bisque
	UK Words = "uk" // bat, prop, peephole, biscuit
)

// ParseWords reads "us" or "uk".
func ParseWords(text string) (Words, error) { return US, nil }

// Say turns a sentence written in US words into the person's.
func (w Words) Say(sentence string) string { return sentence }
