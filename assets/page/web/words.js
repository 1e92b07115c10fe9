// Words of the page in the person's choice of US or UK, as the load has them
// (State.words). Sentences that come from the program are in that choice already.

const pairs = {
  shelf: "bat", shelves: "bats", Shelf: "Bat", Shelves: "Bats",
  post: "prop", posts: "props", Post: "Prop", Posts: "Props",
  spyhole: "peephole", Spyhole: "Peephole", spyholes: "peepholes",
  bisque: "biscuit", Bisque: "Biscuit", gray: "grey", color: "colour", Color: "Colour",
};

// word answers a US word in the person's choice.
export function word(words, us) {
  return words === "UK" ? pairs[us] ?? us : us;
}

// inWords puts every paired word of a sentence of ours into the person's choice.
export function inWords(words, sentence) {
  if (words !== "UK") return sentence;
  return sentence.replace(/[A-Za-z]+/g, (w) => pairs[w] ?? w);
}

// initial answers the text with a capital.
export function initial(text) {
  return text ? text[0].toUpperCase() + text.slice(1) : text;
}
