// The bridge to the program in wasm: loads it, hands calls through, starts it
// again when it has stopped. It knows no load and no picture.

const paths = { exec: "/assets/wasm_exec.js", wasm: "/assets/viewport.wasm" };

let compiled = null; // the module, compiled once and kept for a new start

function script(src) {
  return new Promise((done, fail) => {
    if (globalThis.Go) return done();
    const el = document.createElement("script");
    el.src = src;
    el.onload = () => done();
    el.onerror = () => fail(new Error("the page's program could not be fetched"));
    document.head.append(el);
  });
}

async function compile() {
  if (compiled) return compiled;
  const answer = await fetch(paths.wasm);
  if (!answer.ok) throw new Error("the page's program could not be fetched");
  try {
    compiled = await WebAssembly.compileStreaming(answer.clone());
  } catch {
    compiled = await WebAssembly.compile(await answer.arrayBuffer());
  }
  return compiled;
}

// start runs the program and answers a Bridge once it takes calls. stopped is
// called once, with what is known of why, when the program ends by itself.
export async function start(stopped) {
  await script(paths.exec);
  const module = await compile();
  const go = new globalThis.Go();
  const bridge = new Bridge(stopped);
  const ready = new Promise((done) => { globalThis.threepostReady = done; });
  const instance = await WebAssembly.instantiate(module, go.importObject);
  delete globalThis.threepost;
  go.run(instance).then(() => bridge.end("it ended"), (e) => bridge.end(String(e)));
  // The program sets the global before it waits for calls; the promise is for
  // programs that call it, the loop for those that do not.
  for (let i = 0; i < 200 && !globalThis.threepost; i++) {
    await Promise.race([ready, new Promise((r) => setTimeout(r, 10))]);
  }
  if (!globalThis.threepost) throw new Error("the page's program does not start");
  bridge.port = globalThis.threepost;
  return bridge;
}

// Bridge is one run of the program.
class Bridge {
  constructor(stopped) {
    this.stopped = stopped;
    this.port = null;
  }

  // call answers {ok}, {refusal} or {fault}; it never throws.
  call(method, arg) {
    if (!this.port) return { fault: "The page's program has stopped." };
    let text;
    try {
      text = this.port.call(method, JSON.stringify(arg ?? {}));
    } catch (e) {
      this.end(String(e));
      return { fault: "The page's program has stopped." };
    }
    let answer;
    try {
      answer = JSON.parse(text);
    } catch {
      this.end("no answer to " + method);
      return { fault: "The page's program has stopped." };
    }
    if (answer.fault) this.end(answer.fault);
    return answer;
  }

  attach(canvas, options) {
    try {
      const said = this.port?.attach(canvas, options ?? {});
      return typeof said === "string" ? said : "";
    } catch (e) {
      return String(e);
    }
  }

  detach() {
    try { this.port?.detach(); } catch { /* it has stopped already */ }
  }

  listen(fn) {
    try { this.port?.listen(fn); } catch (e) { this.end(String(e)); }
  }

  end(why) {
    if (!this.port && !this.stopped) return;
    this.port = null;
    const told = this.stopped;
    this.stopped = null;
    if (told) told(why);
  }
}
