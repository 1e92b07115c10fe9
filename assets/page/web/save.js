// The open load as a file of the program: opened, saved after every edit with
// the revision it is based on, watched for changes by another hand. What the
// program cannot take is kept in this browser until it can.

// What is kept belongs to one folder: another folder may hold a load of the same name.
const kept = (folder, id) => `threepost:unsaved:${folder ?? ""}:${id}`;

// talk answers {status, body}; status 0 when the program does not answer.
export async function talk(method, path, body) {
  try {
    const answer = await fetch(path, {
      method,
      headers: body === undefined ? {} : { "Content-Type": "application/json" },
      body: body === undefined ? undefined : JSON.stringify(body),
      cache: "no-store",
    });
    const text = await answer.text();
    let data = {};
    try { data = text ? JSON.parse(text) : {}; } catch { data = { refusal: text.trim() }; }
    return { status: answer.status, body: data };
  } catch {
    return { status: 0, body: { refusal: "Threepost does not answer. Start it again; this page keeps what you changed." } };
  }
}

export class File {
  constructor(app) {
    this.app = app;
    this.clear();
  }

  clear() {
    this.source?.close();
    clearTimeout(this.timer);
    this.app.plan?.forget();
    this.app.buying?.forget();
    this.app.splitting?.forget();
    Object.assign(this, {
      id: null, sample: null, title: "", text: null, revision: null, what: "",
      saved: { kind: "none", says: "" }, clash: null, sending: false, dirty: false, waits: 1000, source: null, broken: null,
    });
  }

  // ---- opening

  async openLoad(id) {
    const { status, body } = await talk("GET", "/api/loads/" + encodeURIComponent(id));
    if (status === 422) {
      this.clear();
      Object.assign(this, { id, title: id, text: null, broken: { refusal: body.refusal, text: body.text, revision: body.revision } });
      this.revision = body.revision;
      this.watch();
      this.app.state = null;
      this.app.changed("state", "saved");
      return false;
    }
    if (status !== 200) {
      this.app.say(body.refusal ?? "The load cannot be opened.");
      return false;
    }
    this.clear();
    Object.assign(this, { id, title: body.title ?? id, text: body.text, revision: body.revision });
    const local = this.local();
    const opened = this.app.reopen(body.text);
    if (opened.refusal) this.broken = { refusal: opened.refusal, text: body.text };
    this.set("saved", "saved");
    this.watch();
    const late = local && local.text !== body.text ? local : null;
    if (late && late.base === body.revision) this.resume(late.text, late.what);
    else if (late) this.clashed({ revision: body.revision, text: body.text }, late.text, "This browser kept changes that did not reach the file, and the file has changed since.");
    else if (body.unsaved && body.unsaved !== body.text) this.clashed({ revision: body.revision, text: body.text }, typeof body.unsaved === "string" ? body.unsaved : body.unsaved.text, "The journal holds a newer text than the file.");
    remember("load", id);
    return true;
  }

  async openSample(id) {
    const { status, body } = await talk("GET", "/api/samples/" + encodeURIComponent(id));
    if (status !== 200) {
      this.app.say(body.refusal ?? "The sample cannot be opened.");
      return false;
    }
    this.clear();
    Object.assign(this, { sample: id, title: body.title ?? id, text: body.text });
    this.app.reopen(body.text);
    this.set("sample", "a sample; your first change makes a file of it");
    remember("sample", id);
    return true;
  }

  // openText opens a text that has no file yet; the file is made at once.
  async openText(text, title) {
    this.clear();
    Object.assign(this, { title: title ?? "Load", text });
    const opened = this.app.reopen(text);
    if (opened.refusal) {
      this.broken = { refusal: opened.refusal, text };
      this.app.changed("state", "saved");
      return false;
    }
    this.dirty = true;
    await this.flush();
    return true;
  }

  // resume opens a newer text over the file's and saves it.
  resume(text, what) {
    this.text = text;
    this.app.reopen(text);
    this.what = what ?? "";
    this.dirty = true;
    this.flush();
  }

  // ---- saving

  // edited is called after every edit: the text is kept here at once, then sent.
  edited(what) {
    const answer = this.app.bridge.call("text", {});
    if (!answer.ok) return;
    this.text = answer.ok.text;
    this.what = what ?? "";
    this.dirty = true;
    if (this.clash) this.clash.mine = this.text; // this page's version goes on while the person thinks
    this.keep();
    this.flush();
  }

  async flush() {
    if (this.sending || !this.dirty || this.clash) return;
    clearTimeout(this.timer);
    this.sending = true;
    this.dirty = false;
    const sent = this.text, id = this.id, what = this.what;
    if (this.saved.kind !== "away") this.set("saving", "saving");
    const { status, body } = id === null
      ? await talk("POST", "/api/loads", { title: this.app.state?.title || this.title, text: sent })
      : await talk("PUT", "/api/loads/" + encodeURIComponent(id), { base: this.revision, text: sent, what });
    if (id !== this.id) { this.sending = false; return; } // another load was opened meanwhile
    this.sending = false;
    this.answered(status, body, sent);
  }

  answered(status, body, sent) {
    if (status === 200 || status === 201) {
      this.revision = body.revision;
      this.waits = 1000;
      if (this.id === null) {
        this.id = body.id;
        this.sample = null;
        remember("load", body.id);
        this.watch();
      }
      if (sent === this.text) this.forget();
      this.set("saved", "saved");
      if (this.dirty) this.flush();
      return;
    }
    if (status === 409) return this.clashed(body, this.text, body.refusal);
    this.dirty = true;
    this.keep();
    if (status === 0 || status >= 500) {
      this.set("away", "not saved: Threepost does not answer; kept in this browser");
      this.timer = setTimeout(() => this.flush(), this.waits);
      this.waits = Math.min(this.waits * 2, 15000);
      return;
    }
    this.set("refused", "not saved");
    this.app.say(body.refusal ?? "The file does not take this change; it is kept in this browser.");
  }

  // ---- two hands on one file

  // clashed keeps both texts and asks which one goes on.
  clashed(file, mine, says) {
    if (typeof file.text === "string" && file.text === mine) {
      this.revision = file.revision;
      this.dirty = false;
      return this.set("saved", "saved");
    }
    this.clash = { says: says ?? "The file was changed by another hand.", revision: file.revision, text: file.text, mine };
    this.set("clash", "not saved: two versions");
    this.app.changed("clash");
  }

  // takeMine writes this page's text over the file's; the file's stays among the earlier versions.
  takeMine() {
    const { revision, mine } = this.clash;
    this.clash = null;
    this.revision = revision;
    if (this.text !== mine) this.app.reopen(mine);
    this.text = mine;
    this.dirty = true;
    this.app.changed("clash");
    return this.flush();
  }

  async takeTheirs() {
    const clash = this.clash;
    // A base that no file has: the server keeps this page's text among the versions and writes nothing.
    const aside = await talk("PUT", "/api/loads/" + encodeURIComponent(this.id), { base: "", text: clash.mine, what: this.what || "this page's version" });
    if (aside.status !== 409) return this.app.say(aside.body.refusal ?? "Threepost does not answer; this page's version is not kept yet.");
    this.clash = null;
    let { text, revision } = clash;
    if (typeof text !== "string") {
      const { status, body } = await talk("GET", "/api/loads/" + encodeURIComponent(this.id));
      if (status !== 200) { this.clash = clash; return this.app.say(body.refusal); }
      ({ text, revision } = body);
    }
    Object.assign(this, { text, revision, dirty: false });
    this.forget();
    this.app.reopen(text);
    this.set("saved", "saved");
    this.app.changed("clash");
  }

  // watch listens for changes of the file by whatever hand.
  watch() {
    this.source?.close();
    const id = this.id;
    const source = new EventSource("/api/loads/" + encodeURIComponent(id) + "/changes");
    this.source = source;
    source.onmessage = (e) => {
      let told = {};
      try { told = JSON.parse(e.data); } catch { return; }
      if (this.id === id) this.moved(told.revision);
    };
    source.onopen = () => { if (this.saved.kind === "away") { this.waits = 1000; this.flush(); } };
  }

  async moved(revision) {
    if (revision === this.revision || this.clash) return;
    if (this.sending) return void setTimeout(() => this.moved(revision), 150);
    const id = this.id;
    const { status, body } = await talk("GET", "/api/loads/" + encodeURIComponent(id));
    if (this.id !== id || (status === 200 && body.revision === this.revision)) return;
    if (this.broken) return status === 200 || status === 422 ? void this.openLoad(id) : undefined;
    if (status === 422) return this.app.say("The file was changed by another hand and cannot be read now: " + (body.refusal ?? "") + " This page keeps the last text that could be read.");
    if (status !== 200) return this.app.say(body.refusal ?? "The file is gone from the folder. The next change here writes it again.");
    const busy = this.dirty || this.sending || this.app.held || this.app.lifted;
    if (busy) return this.clashed(body, this.app.bridge.call("text", {}).ok?.text ?? this.text, "The file was changed by another hand while you changed it here.");
    Object.assign(this, { text: body.text, revision: body.revision });
    this.app.reopen(body.text);
    this.app.say("The file was changed by another hand; the page shows it as it is now.");
  }

  // ---- kept in this browser

  keep() {
    if (this.id === null) return;
    try {
      localStorage.setItem(kept(this.app.room?.folder, this.id), JSON.stringify({ base: this.revision, text: this.text, what: this.what }));
    } catch { /* no room or not allowed: the journal of the program still has it */ }
  }

  forget() {
    try { if (this.id !== null) localStorage.removeItem(kept(this.app.room?.folder, this.id)); } catch { /* not allowed */ }
  }

  local() {
    try { return JSON.parse(localStorage.getItem(kept(this.app.room?.folder, this.id)) ?? "null"); } catch { return null; }
  }

  set(kind, says) {
    this.saved = { kind, says };
    this.app.changed("saved");
  }
}

// remember writes what is open into the address, so that a reload finds it.
function remember(kind, id) {
  const url = new URL(location.href);
  url.searchParams.delete("load");
  url.searchParams.delete("sample");
  url.searchParams.set(kind, id);
  history.replaceState(null, "", url);
}
