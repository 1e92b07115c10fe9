// What the program on this computer works out a line at a time: plans, splits,
// what is worth buying. A run has a name by which it can be ended early.

// runName is a name for a run that no other has.
export function runName() {
  return Array.from(crypto.getRandomValues(new Uint32Array(4)), (n) => n.toString(36)).join("-");
}

// streamed asks and gives every line to take until the answer ends or the stream
// is aborted. It answers why there is nothing; "" when all went well or it was
// aborted. none is said where the program refuses without a sentence.
export async function streamed(path, ask, stream, take, none) {
  try {
    const answer = await fetch(path, { method: "POST", signal: stream.signal, headers: { "Content-Type": "application/json" }, body: JSON.stringify(ask) });
    if (!answer.ok || !answer.body) return (await answer.json().catch(() => ({}))).refusal ?? none;
    const reader = answer.body.getReader(), decoder = new TextDecoder();
    let rest = "";
    for (;;) {
      const { value, done } = await reader.read();
      if (stream.signal.aborted) return "";
      rest += done ? "\n" : decoder.decode(value, { stream: true });
      const lines = rest.split("\n");
      rest = lines.pop();
      for (const line of lines) if (line.trim()) take(JSON.parse(line));
      if (done) return "";
    }
  } catch (e) {
    return e.name === "AbortError" ? "" : "Threepost does not answer. Start it again; the load is as it was.";
  }
}

// enough ends a run, which keeps what it has; false where that was not heard.
export async function enough(run) {
  const said = await fetch("/api/plan/enough", { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify({ run }) }).catch(() => null);
  return !!said?.ok;
}
