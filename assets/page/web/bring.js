// Files that a person brings to the page or takes from it.

const largest = 4 << 20; // as the program reads; a larger file is refused before it is read

// openFiles opens a load file as a new load of the folder, and gives a list of
// pots to be read.
export async function openFiles(app, files, paste) {
  const file = files?.[0];
  if (!file) return;
  if (file.size > largest) return app.say(`${file.name} is larger than 4 MB; a list of pots or a load file is smaller.`);
  let text;
  try {
    text = await file.text();
  } catch {
    return app.say(`${file.name} cannot be read; choose it again.`);
  }
  if (/\.toml$/i.test(file.name)) {
    const title = file.name.replace(/\.toml$/i, "");
    if (await app.file.openText(text, title)) app.open("load");
    return;
  }
  if (paste) return paste(text);
  if (!app.state) return app.say("A list of pots needs a kiln first: build your kiln, then bring the list.");
  app.pasted = text;
  app.open("table");
}

// download hands a text or blob to the browser as a file.
export function download(name, content, type) {
  const blob = content instanceof Blob ? content : new Blob([content], { type });
  const url = URL.createObjectURL(blob);
  const a = document.createElement("a");
  a.href = url;
  a.download = name;
  document.body.append(a);
  a.click();
  a.remove();
  setTimeout(() => URL.revokeObjectURL(url), 60000);
}
