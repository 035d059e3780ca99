/*
 * The inspector's checklist on a screen: fields beside its lines, what is done, files, the sheet for print.
 *
 * Nothing is ever filled in or ticked here but what a person put in. Nothing is sent or fetched. Entries are kept in this
 * browser under the digests of the docket's job and of its lines, since all files that are opened from folders share one
 * store. All text goes in as text, never as markup.
 */
(function () {
  "use strict";

  const { element, checksum, said, asItStands } = livePage;
  const box = document.getElementById("check"), source = document.getElementById("check-data");
  const KIND = "liftout checklist", FORM = 1; // of a saved file
  const ASK_AFTER = 10; // entries that are in no file
  const CONFORMS = "conforms", FAILS = "does not conform", DECLINED = "not applicable";
  const RESULTS = [CONFORMS, FAILS, DECLINED];
  const TEXTS = ["found", "reason", "decision", "initials", "second", "instrument", "date"];
  const SEEN = ["found", "result", "reason", "instrument"]; // what initials stand for
  const PLATE = [["part number", "Part number on the plate"], ["serial", "Serial number on the plate"], ["batch", "Batch or lot"]];
  const HEAD = [["serial", "Serial number, as read on the data plate"], ["time", "Total time of the aircraft"], ["place", "Place"]];
  const LONGEST = 600;
  const OPEN = "open", BEGUN = "begun", DONE = "done";
  const SHOW = {
    all: ["all lines", () => true],
    open: ["lines that are not done", (line) => line.stage !== DONE],
    hold: ["HOLD POINT lines that are not done", (line) => line.hold && line.stage !== DONE],
    second: ["SECOND PERSON lines that are not done", (line) => line.second && line.stage !== DONE],
    fails: ["lines that do not conform", (line) => entry(line).result === FAILS],
  };

  let data, lines, units, chapters, kept, told, keeps = true;

  // --- small things ----------------------------------------------------------------------------------------------

  const button = (words, act, more) => element("button", { type: "button", click: act, ...more }, words);
  const lineOf = (number) => lines.find((line) => line.number === number);
  const counted = (count, one, many) => `${count} ${count === 1 ? one : many}`;
  const stateNames = () => data.states.map(([name]) => name);
  const stateSaid = () => (data.states.find(([name]) => name === kept.state) || ["", ""])[1];
  const plainName = (text) => text.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "");

  /** Day of a moment on this device, as papers write it. */
  function day(moment) {
    const two = (part) => String(part).padStart(2, "0");
    return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
  }

  /** A field with its label around it. */
  function field(label, write, more) {
    const input = element("input", { type: "text", maxlength: LONGEST, autocomplete: "off", input: () => write(input.value), ...more });
    return { input, whole: element("label", { class: "check-field" }, element("span", {}, label), input) };
  }

  // --- start -----------------------------------------------------------------------------------------------------

  function start() {
    let fault = "";
    try {
      if (checksum(source.textContent) !== source.dataset.sum) fault = "its data is not what was written";
      data = JSON.parse(source.textContent);
      livePage.speak(data.words);
      lines = [...box.querySelectorAll("[data-line]")].map((at) => ({
        number: at.dataset.line, at, chapter: at.closest("details"), hold: "hold" in at.dataset, second: "second" in at.dataset, measured: "measured" in at.dataset, stage: OPEN,
      }));
      if (lines.length !== data.count) fault = fault || `it has ${lines.length} of ${data.count} lines`;
    } catch (error) {
      fault = `its data cannot be read (${error.message})`;
    }
    if (fault) {
      box.replaceChildren(element("div", { class: "check-lock", role: "alert" }, element("p", { class: "word" }, "LOCKED"),
        element("p", {}, `This page is not whole: ${fault}. Copy the docket again, and use the printed checklist until it opens.`)));
      return;
    }
    units = [...box.querySelectorAll("[data-unit]")].map((at) => ({ name: at.dataset.unit, at }));
    chapters = [...box.querySelectorAll(".check-chapter")];
    kept = restored() || anew();
    build();
    showAll();
    window.addEventListener("storage", (event) => {
      if (event.key !== shelf()) return;
      kept = restored() || anew();
      showAll();
      say("This checklist was changed in another window of this browser. This page shows it as it is there.");
    });
    window.addEventListener("beforeunload", (event) => {
      if (!keeps && kept.waiting.length) event.preventDefault();
    });
    box.addEventListener("focusin", (event) => { told.last = event.target.closest("[data-line]") || told.last; });
    // The tenth entry goes to a file as soon as it is finished: a browser can empty its store without a word.
    for (const kind of ["change", "click"]) {
      box.addEventListener(kind, (event) => { if (kept.waiting.length >= ASK_AFTER && !event.target.closest(".check-files")) save(); });
    }
    window.addEventListener("beforeprint", printed);
    window.matchMedia("print").addEventListener("change", (change) => { if (change.matches) printed(); });
  }

  // --- what is kept ----------------------------------------------------------------------------------------------

  const shelf = () => `liftout checklist ${data.digest} ${data.lines}`;
  const anew = () => sound({});

  function restored() {
    try {
      const text = localStorage.getItem(shelf());
      return text === null ? null : sound(JSON.parse(text));
    } catch (error) {
      return null;
    }
  }

  function keep() {
    try {
      localStorage.setItem(shelf(), JSON.stringify(kept));
      keeps = true;
    } catch (error) {
      keeps = false;
    }
  }

  /** What was kept or saved, as far as it has the right form: strings in their places and nothing else; null where it has not. */
  function sound(found) {
    const texts = (given, names) => Object.fromEntries(names.map((name) => [name, given && typeof given[name] === "string" ? given[name].slice(0, LONGEST) : ""]));
    const list = (given) => (Array.isArray(given) ? given : []);
    const object = (given) => (given && typeof given === "object" && !Array.isArray(given) ? given : {});
    if (!found || typeof found !== "object") return null;
    const sheets = {};
    for (const state of stateNames()) {
      const sheet = object(object(found.sheets)[state]);
      sheets[state] = {};
      for (const { number } of lines) {
        if (!sheet[number]) continue;
        const one = texts(sheet[number], TEXTS);
        sheets[state][number] = { ...one, result: RESULTS.includes(sheet[number].result) ? sheet[number].result : "" };
      }
    }
    const names = units.map((unit) => unit.name);
    return {
      state: stateNames().includes(found.state) ? found.state : "",
      head: texts(object(found.head), HEAD.map(([name]) => name)),
      people: list(found.people).map((one) => texts(one, ["initials", "name"])),
      instruments: list(found.instruments).map((one) => texts(one, ["id", "name", "due"])).filter((one) => one.id),
      units: Object.fromEntries(names.map((name) => [name, texts(object(object(found.units)[name]), PLATE.map(([key]) => key))])),
      sheets,
      waiting: list(found.waiting).filter((one) => typeof one === "string"),
    };
  }

  // --- entries ---------------------------------------------------------------------------------------------------

  const blank = () => ({ ...Object.fromEntries(TEXTS.map((name) => [name, ""])), result: "" });
  const entry = (line) => (kept.sheets[kept.state] || {})[line.number] || blank();
  const begun = (one) => [...TEXTS, "result"].some((name) => one[name].trim());
  const person = (initials) => kept.people.find((one) => one.initials.trim() && one.name.trim() && one.initials.trim().toLowerCase() === initials.trim().toLowerCase());

  /** What a line lacks to be done, in words. */
  function lacks(line, one) {
    const wanted = [];
    if (!one.result) wanted.push("result");
    if (one.result === CONFORMS && line.measured && !one.found.trim()) wanted.push("value found");
    if ((one.result === FAILS || one.result === DECLINED) && !one.reason.trim()) wanted.push("reason");
    if (!one.initials.trim()) wanted.push("initials");
    else if (!person(one.initials)) wanted.push(`the name of ${one.initials.trim()} among the persons above`);
    if (line.second) {
      if (!one.second.trim()) wanted.push("initials of the second person");
      else if (!person(one.second)) wanted.push(`the name of ${one.second.trim()} among the persons above`);
      else if (person(one.second) === person(one.initials)) wanted.push("another person as the second one");
    }
    if (one.initials.trim() && !/^\d{4}-\d{2}-\d{2}$/.test(one.date)) wanted.push("date");
    return wanted;
  }

  /** Something was put in that no file has yet. */
  function changed(what) {
    if (!kept.waiting.includes(what)) kept.waiting.push(what);
    keep();
  }

  /** A part of a line was put in by hand. */
  function write(line, name, value) {
    const sheet = (kept.sheets[kept.state] = kept.sheets[kept.state] || {});
    const one = { ...entry(line), [name]: value };
    if (SEEN.includes(name) && (one.initials || one.second)) {
      Object.assign(one, { initials: "", second: "", date: "" });
      say(`Line ${line.number} was changed after it was initialled. Initial it again.`);
    }
    if ((name === "initials" || name === "second") && value.trim() && !one.date) one.date = day(new Date());
    if (!one.initials.trim() && !one.second.trim() && name !== "date") one.date = "";
    sheet[line.number] = one;
    changed(`${kept.state}, line ${line.number}`);
    show(line, name);
    summarise();
  }

  // --- the page --------------------------------------------------------------------------------------------------

  function build() {
    told = {
      status: element("div", { class: "check-status", role: "status" }), refusal: element("div", { class: "check-refusal", role: "alert" }),
      store: element("p", { class: "check-refusal", hidden: true }, "This browser keeps nothing. Save the entries to a file before this page is closed."),
      progress: element("progress", { max: lines.length, value: 0, "aria-label": "Lines done" }), count: element("span", {}), waiting: element("span", { class: "check-waiting" }),
      bar: element("section", { class: "check-bar", "aria-label": "Progress and saving" }), people: element("div", {}), instruments: element("div", {}), head: [],
      named: element("datalist", { id: "check-initials" }), sheet: element("section", { class: "check-sheet", "aria-hidden": "true" }), counts: new Map(),
    };
    told.bar.append(told.progress, element("p", {}, told.count, told.waiting), button("Save to a file", save));
    for (const line of lines) fields(line);
    for (const unit of units) plate(unit);
    for (const chapter of chapters) {
      const count = element("span", { class: "check-count" });
      chapter.querySelector("summary").append(count);
      told.counts.set(chapter, count);
    }
    box.querySelector(".check-wait").remove();
    box.prepend(identity(), told.refusal, told.store, head(), told.named, told.status);
    box.querySelector(".check-chapters").before(element("div", { class: "check-find" }, showOnly(), button("Go to the next line that is not done", next)));
    box.append(files(), told.bar);
    box.querySelector(".check-signatures").before(told.sheet);
  }

  function identity() {
    const { docket, aircraft } = data;
    return element("p", { class: "check-identity" }, element("strong", {}, `${aircraft.model}, registration ${aircraft.registration}, serial number ${aircraft.serial}`), ". ",
      `Docket ${docket.number} revision ${docket.revision}, job digest ${data.digest.slice(0, 12)}`, ". ", counted(lines.length, "line", "lines"), ".");
  }

  function head() {
    const states = element("select", { id: "check-state", change: () => { kept.state = states.value; keep(); showAll(); } },
      element("option", { value: "" }, "choose the state"), data.states.map(([name, words]) => element("option", { value: name }, asItStands(words))));
    told.states = states;
    const rows = HEAD.map(([name, label]) => {
      const made = field(label, (value) => { kept.head[name] = value; changed("head"); summarise(); });
      told.head.push([name, made.input]);
      return made.whole;
    });
    return element("section", { class: "check-head", "aria-labelledby": "check-inspection" }, element("h2", { id: "check-inspection" }, "This inspection"),
      element("label", { class: "check-field" }, element("span", {}, "State inspected"), states), rows,
      element("h3", {}, "Persons"), element("p", { class: "check-note" }, "Initials count on a line only when they stand here with a name and licence."), told.people,
      button("Add a person", () => { kept.people.push({ initials: "", name: "" }); showPeople(); told.people.querySelector("div:last-child input").focus(); }),
      element("h3", {}, "Instruments"), told.instruments,
      button("Add an instrument", () => {
        const used = kept.instruments.map((one) => Number(one.id));
        kept.instruments.push({ id: String(Math.max(0, ...used) + 1), name: "", due: "" });
        showInstruments();
        told.instruments.querySelector("div:last-child input").focus();
      }));
  }

  function showPeople() {
    told.people.replaceChildren(...kept.people.map((one, place) => element("div", { class: "check-row", role: "group", "aria-label": `Person ${place + 1}` },
      ...[["initials", "Initials"], ["name", "Name, licence or authorisation and its number"]].map(([name, label]) => {
        const made = field(label, (value) => { one[name] = value; changed("head"); named(); lines.forEach((line) => show(line)); summarise(); });
        made.input.value = one[name];
        return made.whole;
      }))));
    named();
  }

  /** Initials that a field of initials offers; it never takes one by itself. */
  function named() {
    told.named.replaceChildren(...kept.people.filter((one) => one.initials.trim()).map((one) => element("option", { value: one.initials.trim() })));
  }

  function showInstruments() {
    told.instruments.replaceChildren(...kept.instruments.map((one, place) => element("div", { class: "check-row", role: "group", "aria-label": `Instrument ${place + 1}` },
      ...[["name", "Instrument and its number", {}], ["due", "Calibration holds until", { type: "date" }]].map(([name, label, more]) => {
        const made = field(label, (value) => { one[name] = value; changed("head"); offerInstruments(); summarise(); }, more);
        made.input.value = one[name];
        return made.whole;
      }))));
    offerInstruments();
  }

  function offerInstruments() {
    const offered = kept.instruments.filter((one) => one.name.trim());
    box.classList.toggle("check-without-instruments", !offered.length);
    for (const line of lines) {
      line.instrument.replaceChildren(element("option", { value: "" }, "none"), ...offered.map((one) => element("option", { value: one.id }, asItStands(one.name))));
      line.instrument.value = entry(line).instrument;
    }
  }

  /** The fields of a line, empty; what somebody wrote comes by show(). */
  function fields(line) {
    const put = (name) => (value) => write(line, name, value);
    line.inputs = {};
    const one = (name, label, more) => {
      const made = field(label, put(name), more);
      line.inputs[name] = made.input;
      return made.whole;
    };
    line.instrument = element("select", { change: () => write(line, "instrument", line.instrument.value) });
    line.results = RESULTS.map((result) => button(result, () => write(line, "result", entry(line).result === result ? "" : result), { "aria-pressed": "false", "data-result": result }));
    line.note = element("p", { class: "check-note" });
    const found = one("found", line.measured ? "Value found, with its unit" : "Value found");
    found.classList.add("check-found");
    line.decision = one("decision", "Decision on it, and by whom");
    const initials = { class: "check-short", maxlength: 8, list: "check-initials" };
    line.at.append(element("div", { class: "check-fields" },
      found, element("label", { class: "check-field check-instrument" }, element("span", {}, "Instrument"), line.instrument),
      element("div", { class: "check-results", role: "group", "aria-label": "Result" }, line.results),
      one("reason", "Remark, or the reason"), line.decision,
      element("div", { class: "check-by" }, one("initials", "Initials", initials), line.second ? one("second", "Initials, second person", initials) : null,
        one("date", "Date", { type: "date" }), button("Clear this line", () => clear(line))),
      line.note));
  }

  function plate(unit) {
    unit.inputs = {};
    unit.at.append(element("div", { class: "check-fields" }, PLATE.map(([name, label]) => {
      const made = field(label, (value) => {
        kept.units[unit.name] = { ...kept.units[unit.name], [name]: value };
        changed(`unit ${unit.name}`);
        summarise();
      });
      unit.inputs[name] = made.input;
      return made.whole;
    })));
  }

  function showOnly() {
    told.only = element("select", { change: filter }, Object.entries(SHOW).map(([name, [words]]) => element("option", { value: name }, words)));
    return element("label", { class: "check-field" }, element("span", {}, "Show"), told.only);
  }

  /** Lines that were asked for; a line that is done meanwhile stays until somebody chooses again. */
  function filter() {
    const [, wanted] = SHOW[told.only.value];
    for (const line of lines) line.at.hidden = !wanted(line);
    for (const chapter of chapters) {
      const shown = lines.some((line) => line.chapter === chapter && !line.at.hidden);
      chapter.hidden = !shown;
      if (told.only.value !== "all") chapter.open = shown;
    }
    say(`${counted(lines.filter((line) => !line.at.hidden).length, "line is", "lines are")} shown.`);
  }

  function next() {
    const from = lines.findIndex((line) => line.at === told.last);
    const line = [...lines.slice(from + 1), ...lines.slice(0, from + 1)].find((one) => one.stage !== DONE && !one.at.hidden);
    if (!kept.state) return told.states.focus();
    if (!line) return say("No line that is shown is still to be done.");
    line.chapter.open = true;
    told.last = line.at;
    line.at.scrollIntoView({ block: "start" });
    line.inputs.found.focus({ preventScroll: true });
  }

  function clear(line) {
    if (!begun(entry(line))) return;
    kept.sheets[kept.state][line.number] = blank();
    changed(`${kept.state}, line ${line.number}`);
    show(line);
    summarise();
    say(`Line ${line.number} is empty again.`);
    line.inputs.found.focus();
  }

  // --- what is shown ---------------------------------------------------------------------------------------------

  function showAll() {
    told.states.value = kept.state;
    for (const [name, input] of told.head) input.value = kept.head[name] || "";
    for (const unit of units) for (const [name] of PLATE) unit.inputs[name].value = (kept.units[unit.name] || {})[name] || "";
    for (const unit of units) unit.at.disabled = !kept.state;
    showPeople();
    showInstruments();
    for (const line of lines) show(line);
    told.only.value = "all";
    filter();
    summarise();
  }

  /** A line as it stands; the field that is being typed in is left alone. */
  function show(line, typed) {
    const one = entry(line), wanted = lacks(line, one), none = !begun(one);
    line.stage = none ? OPEN : wanted.length ? BEGUN : DONE;
    line.at.disabled = !kept.state;
    line.at.dataset.stage = line.stage;
    for (const [name, input] of Object.entries(line.inputs)) if (name !== typed || input.value !== one[name]) input.value = one[name];
    line.instrument.value = one.instrument;
    for (const each of line.results) each.setAttribute("aria-pressed", String(each.dataset.result === one.result));
    line.decision.hidden = one.result !== FAILS && !one.decision;
    const still = `Still to give: ${wanted.map(said).join(", ")}.`;
    line.note.textContent = said(!kept.state ? "Choose the state inspected first." : none ? "" : wanted.length ? still : `Done: ${one.result}.`);
  }

  function summarise() {
    const count = (wanted) => lines.filter(wanted).length;
    const done = count((line) => line.stage === DONE), begunOnes = count((line) => line.stage === BEGUN);
    const failing = count((line) => entry(line).result === FAILS), holds = count((line) => line.hold && line.stage !== DONE);
    told.progress.value = done;
    told.count.textContent = [`${done} of ${lines.length} lines done`, begunOnes && `${begunOnes} begun`, failing && counted(failing, "does not conform", "do not conform"),
      holds && counted(holds, "HOLD POINT open", "HOLD POINTs open")].filter(Boolean).map(said).join(", ") + ".";
    const waiting = kept.waiting.length, ask = waiting >= ASK_AFTER;
    const kept_ = waiting ? [`${counted(waiting, "entry is", "entries are")} in no file.`, ask && "SAVE NOW."] : ["All entries are in a file."];
    told.waiting.textContent = ` ${kept_.filter(Boolean).map(said).join(" ")}`;
    if (!waiting && !lines.some((line) => begun(entry(line)))) told.waiting.textContent = "";
    told.bar.classList.toggle("check-ask", ask);
    if (ask && waiting % ASK_AFTER === 0 && told.asked !== waiting) say(`${waiting} entries are in no file. Save them now.`);
    told.asked = waiting;
    told.store.hidden = keeps;
    for (const [chapter, made] of told.counts) {
      const own = lines.filter((line) => line.chapter === chapter);
      made.textContent = said(`${own.filter((line) => line.stage === DONE).length} of ${own.length} done`);
    }
  }

  function say(words) {
    told.status.textContent = said(words);
  }

  function refuse(words) {
    told.refusal.replaceChildren(...(words ? [element("p", {}, words)] : []));
    if (words) told.refusal.scrollIntoView({ block: "center" });
  }

  // --- files -----------------------------------------------------------------------------------------------------

  function files() {
    const open = element("input", { type: "file", accept: ".json,application/json", id: "check-open", change: () => { if (open.files.length) opened(open.files[0]).finally(() => { open.value = ""; }); } });
    return element("section", { class: "check-files", "aria-labelledby": "check-files" }, element("h2", { id: "check-files" }, "Files"),
      element("label", { class: "check-field" }, element("span", {}, "Open a saved file of this checklist"), open),
      element("p", { class: "check-buttons" },
        button("Write the as-fitted record", record), button("Print the checklist", () => window.print()), button("Erase everything from this browser", erase)));
  }

  function handOver(name, content) {
    const address = URL.createObjectURL(new Blob([`${JSON.stringify(content, null, 1)}\n`], { type: "application/json" }));
    element("a", { href: address, download: name }).click();
    setTimeout(() => URL.revokeObjectURL(address), 60000);
  }

  /** Everything that was put in, finished or not, as a file that this page reads again. */
  function save() {
    const { number, revision } = data.docket, moment = new Date(), count = kept.waiting.length;
    const { waiting, ...told_ } = kept;
    const time = moment.toTimeString().slice(0, 8).replace(/:/g, "");
    const name = `${number}-${revision}-checklist-${day(moment)}-${time}.json`;
    handOver(name, { kind: KIND, form: FORM, job: number, revision, digest: data.digest, lines: data.lines, saved: moment.toISOString(), ...told_ });
    kept.waiting = [];
    keep();
    refuse("");
    summarise();
    say(`${counted(count, "entry was", "entries were")} handed to the browser as ${name}. See that the file is there.`);
  }

  async function opened(file) {
    const no = (why) => refuse(`${file.name} was not taken over: ${why} Nothing on this page was changed.`);
    if (kept.waiting.length) return no(`${counted(kept.waiting.length, "entry of this page is", "entries of this page are")} in no file yet, and would be lost. Save first.`);
    let found;
    try {
      found = JSON.parse(await file.text());
    } catch (error) {
      return no("it is no JSON, or it is damaged.");
    }
    if (found && found.liftout && found.entries) return no("it is an as-fitted record, which only liftout close reads. Open a file that this page saved.");
    if (!found || found.kind !== KIND || typeof found.digest !== "string") return no("it was not saved by a checklist page.");
    if (found.form !== FORM) return no("it was saved by another release of this page.");
    const mine = `docket ${data.docket.number} revision ${data.docket.revision}, job digest ${data.digest.slice(0, 12)}`;
    if (found.digest !== data.digest) return no(`it belongs to docket ${found.job} revision ${found.revision}, job digest ${found.digest.slice(0, 12)}; this page is ${mine}.`);
    if (found.lines !== data.lines) return no("its lines are not the lines of this checklist: the docket was written by another release.");
    const unknown = Object.entries(found.sheets || {}).flatMap(([state, sheet]) => (stateNames().includes(state) ? Object.keys(sheet || {}).filter((number) => !lineOf(number)) : [state]));
    if (unknown.length) return no(`it names what this checklist does not have: ${unknown.slice(0, 5).join(", ")}.`);
    kept = { ...sound(found), waiting: [] };
    keep();
    refuse("");
    showAll();
    say(`${file.name} was taken over.`);
  }

  /** The finished lines of the state, as the record that `liftout close` reads. */
  function record() {
    if (!kept.state) return refuse("No record was written: choose the state inspected first.");
    const done = lines.filter((line) => line.stage === DONE), left = lines.filter((line) => line.stage === BEGUN);
    if (!done.length) return refuse("No record was written: no line is done.");
    const named_ = (initials) => { const found = person(initials); return `${found.initials.trim()}, ${found.name.trim()}`; };
    const filled = (pairs) => Object.fromEntries(pairs.filter(([, text]) => text && text.trim()).map(([name, text]) => [name, text.trim()]));
    const entries = Object.fromEntries(done.map((line) => {
      const one = entry(line), used = kept.instruments.find((each) => each.id === one.instrument);
      const by = line.second ? `${named_(one.initials)}; second person ${named_(one.second)}` : named_(one.initials);
      return [line.number, filled([["measured", one.found], ["result", one.result], ["reason", one.reason], ["disposition", one.decision],
        ["instrument", used && used.name], ["calibration due", used && used.due], ["by", by], ["date", one.date]])];
    }));
    const parts = Object.fromEntries(units.map((unit) => [unit.name, filled(Object.entries(kept.units[unit.name] || {}))]).filter(([, told_]) => Object.keys(told_).length));
    const { number, revision } = data.docket;
    handOver(`${number}-${revision}-as-fitted-${plainName(kept.state)}.json`, { liftout: "1", job: number, revision, digest: data.digest, state: kept.state, entries, ...(Object.keys(parts).length ? { parts } : {}) });
    refuse(left.length ? `The record was written with ${counted(done.length, "line", "lines")}. Left out, since they are begun and not done: ${left.map((line) => line.number).join(", ")}.` : "");
    say(`The record was handed to the browser with ${counted(done.length, "line", "lines")} of ${lines.length}.`);
  }

  function erase() {
    const waiting = kept.waiting.length ? `${counted(kept.waiting.length, "entry is", "entries are")} in no file and will be lost.` : "";
    if (!window.confirm([waiting, `Erase every entry of docket ${data.docket.number} from this browser?`].filter(Boolean).map(said).join(" "))) return;
    kept = anew();
    try {
      localStorage.removeItem(shelf());
    } catch (error) {
      // A browser that keeps nothing has nothing to erase.
    }
    refuse("");
    showAll();
    say("Everything was erased from this browser.");
  }

  // --- the sheet for print ---------------------------------------------------------------------------------------

  /** Every line with what was put in; what is not done is left blank, for a pen. */
  function printed() {
    const cell = (text) => element("td", {}, asItStands(text || ""));
    const words = (line) => line.at.querySelector("legend").textContent.replace(line.number, "").trim();
    const accepted = (line) => [...line.at.querySelectorAll(".check-said > div")].filter((pair) => !("reference" in pair.dataset)).map((pair) => pair.querySelector("dd").textContent);
    const row = (line) => {
      const one = entry(line), used = kept.instruments.find((each) => each.id === one.instrument);
      const result = [said(one.result), one.reason, one.decision && `${said("decision")}: ${one.decision}`].filter(Boolean).join("; ");
      return element("tr", {}, cell(line.number), cell(`${words(line)}; ${accepted(line).join("; ")}`), cell([one.found, used && used.name].filter(Boolean).join(", ")), cell(result),
        cell([one.initials, one.second].filter(Boolean).join(", ")), cell(one.date));
    };
    const heads = ["No.", "Item, where, method, acceptance value", "Found", "Result, remark", "Initials", "Date"];
    const table = () => element("table", { class: "ruled" }, element("thead", {}, element("tr", {}, heads.map((name) => element("th", { scope: "col" }, name)))), element("tbody", {}));
    // Chapter by chapter as it stands on the screen, words and cautions too; lines that follow each other become one table.
    const sheetOf = (chapter) => {
      const sheet = element("section", {}, element("h2", {}, asItStands(chapter.querySelector("h2").textContent)));
      for (const part of [...chapter.children].slice(1)) {
        const line = lines.find((one) => one.at === part);
        if (line) {
          if (!sheet.lastChild.matches("table")) sheet.append(table());
          sheet.lastChild.tBodies[0].append(row(line));
        } else {
          const copy = part.cloneNode(true);
          [copy, ...copy.querySelectorAll("[id]")].forEach((one) => one.removeAttribute("id"));
          sheet.append(copy);
        }
      }
      return sheet;
    };
    const plates = units.map((unit) => [unit.name, PLATE.map(([name]) => (kept.units[unit.name] || {})[name]).filter(Boolean).join(", ")]).filter(([, text]) => text);
    told.sheet.replaceChildren(
      element("p", {}, asItStands(`${said("State inspected")}: ${stateSaid() || "____________________"}. ${told.count.textContent} `), `Printed ${day(new Date())}.`),
      element("p", {}, asItStands(HEAD.map(([name, label]) => `${said(label)}: ${kept.head[name] || "__________"}`).join(". "))),
      ...kept.people.filter((one) => one.initials).map((one) => element("p", {}, asItStands(`${one.initials}: ${one.name}`))),
      ...kept.instruments.filter((one) => one.name).map((one) => element("p", {}, asItStands(one.name), one.due ? `, calibration holds until ${one.due}` : null)),
      ...plates.map(([name, text]) => element("p", {}, asItStands(`${name}: ${text}`))),
      ...[...box.querySelectorAll(".check-chapter, .check-reading")].map(sheetOf));
  }

  start();
})();
