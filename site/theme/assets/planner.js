/*
 * The loading planner of a docket: fields, results, the chart, the sheet for print.
 *
 * Every amount is kept in kg, m³ and m, and shown in the units that are chosen; so a change of units changes no loading.
 * Nothing is sent or fetched. What is typed is kept in this browser under the digest of the docket's job, since all files
 * that are opened from folders share one store. All text goes in as text, never as markup.
 */
(function () {
  "use strict";

  const box = document.getElementById("planner"), source = document.getElementById("planner-data");
  const { element, checksum, said } = livePage;
  const { RAMP, TAKEOFF, BURN, LANDING, NO_FUEL } = plannerLoading;
  const WEIGHT_NAMES = { [RAMP]: "ramp weight", [TAKEOFF]: "take-off weight", [LANDING]: "landing weight", [NO_FUEL]: "zero-fuel weight" };
  const TIMES = { [RAMP]: "At the ramp", [TAKEOFF]: "Take-off", [LANDING]: "Landing", [NO_FUEL]: "No fuel left" };
  const ON = { [TAKEOFF]: "take-off", [BURN]: "along the burn", [LANDING]: "landing", [NO_FUEL]: "no fuel left" };
  // What may be loaded is never printed larger than it is: allowances are rounded down, least loads up.
  const DIGITS = { lb: 1, kg: 1, in: 2, mm: 1, "US gal": 1, L: 1 };
  const LARGEST = 1e6; // nothing aboard is more, in any unit offered
  const WAIT = 400; // ms after the last key before a screen reader is told

  let data, plan, chosen, told;

  // --- small things ----------------------------------------------------------------------------------------------

  const factor = (kind) => data.units[kind][chosen.units[kind]];
  const symbol = (kind) => chosen.units[kind];
  /** A state as the papers name it. */
  const named = (index) => data.states[index].said;
  const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /** A number with its digits: half-up, or down for what is left and up for what is too much. */
  function figure(value, digits, how) {
    const raised = Math.abs(value) * 10 ** digits;
    const whole = how === "down" ? Math.floor(raised + 1e-6) : how === "up" ? Math.ceil(raised - 1e-6) : Math.floor(raised + 0.5 + 1e-9);
    const text = (whole / 10 ** digits).toFixed(digits);
    return value < 0 && whole !== 0 ? `\u2212${text}` : text;
  }

  /** An amount in the chosen unit, with the unit. */
  const amount = (value, kind, how) => `${figure(value / factor(kind), DIGITS[symbol(kind)], how)}\u00a0${symbol(kind)}`;
  const momentUnit = () => `${symbol("weight")}\u00b7${symbol("length")}`;
  const moment = (value) => figure(value / factor("weight") / factor("length"), 0);
  const density = (tank) => `${figure(tank.density_kg_m3 / factor("weight") * factor("volume"), 2)}\u00a0${symbol("weight")}/${symbol("volume")}`;

  // --- start -----------------------------------------------------------------------------------------------------

  function start() {
    let fault = "";
    try {
      if (checksum(source.textContent) !== source.dataset.sum) fault = "its data is not what was written";
      data = JSON.parse(source.textContent);
      plan = data.plan;
      livePage.speak(data.words);
      fault = fault || plannerLoading.verified(plan, data.loadings);
    } catch (error) {
      fault = `its data cannot be read (${error.message})`;
    }
    window.liftoutPlanner = { locked: fault, plan, loadings: data && data.loadings, compute: fault ? null : compute, now: () => current() };
    if (fault) lock(fault);
    else open();
  }

  /** A loading as it comes with the page, worked out as it comes with the page. */
  const compute = (loading) => plannerLoading.packed(plannerLoading.outcome(plan, plannerLoading.unpacked(loading)));

  /** Show nothing that could be planned with. */
  function lock(fault) {
    const why = `This page does not compute what its docket computed: ${fault}.`;
    box.replaceChildren(
      element("div", { class: "planner-lock", role: "alert" },
        element("p", { class: "word" }, "LOCKED"),
        element("p", {}, why),
        element("p", {}, "Do not plan with it. Copy the docket again, use a current browser, and plan by hand from the tables of the amendment until it opens.")),
    );
  }

  function open() {
    chosen = { state: null, limits: null, loads: empty(), fuel: plan.tanks.map(() => 0), taxi: parts(), trip: parts(), burn: null, units: { ...data.written } };
    restore();
    build();
    update();
    let width = 0;
    new ResizeObserver(() => {
      // Only a new width asks for a new chart: its own height must not call for the next one.
      if (box.clientWidth !== width) draw();
      width = box.clientWidth;
    }).observe(box);
  }

  const empty = () => plan.stations.map((station) => Array.from({ length: station.places || 1 }, () => 0));
  /** Fuel burnt is one total where the order of the tanks is published, or of each tank. */
  const parts = () => (plan.order.length ? [0] : plan.tanks.map(() => 0));

  // --- what is kept ----------------------------------------------------------------------------------------------

  const shelf = () => `liftout planner ${data.digest}`;

  function keep() {
    const state = chosen.state === null ? null : plan.states[chosen.state].name;
    try {
      localStorage.setItem(shelf(), JSON.stringify({ ...chosen, state }));
    } catch (error) {
      // A browser that keeps nothing still plans; what is typed is gone when the page is closed.
    }
  }

  /** Take back what was kept, as far as it fits this plan. */
  function restore() {
    let kept = null;
    try {
      kept = JSON.parse(localStorage.getItem(shelf()));
    } catch (error) {
      return;
    }
    if (!kept || typeof kept !== "object") return;
    const fits = (found, like) => Array.isArray(found) && found.length === like.length && found.every((one) => Number.isFinite(one) && one >= 0);
    if (Array.isArray(kept.loads) && kept.loads.length === chosen.loads.length && kept.loads.every((one, index) => fits(one, chosen.loads[index]))) chosen.loads = kept.loads;
    for (const name of ["fuel", "taxi", "trip"]) if (fits(kept[name], chosen[name])) chosen[name] = kept[name];
    for (const kind of Object.keys(chosen.units)) if (kept.units && kept.units[kind] in data.units[kind]) chosen.units[kind] = kept.units[kind];
    if (Number.isFinite(kept.burn) && kept.burn > 0) chosen.burn = kept.burn;
    const state = plan.states.findIndex((one) => one.name === kept.state);
    if (state >= 0) choose(state);
    if (state >= 0 && plan.states[state].limits.includes(kept.limits)) chosen.limits = kept.limits;
  }

  // --- states and seats ------------------------------------------------------------------------------------------

  function choose(state) {
    chosen.state = state;
    if (state === null) return;
    const { limits } = plan.states[state];
    // One category is no choice; of several, somebody has to choose.
    if (!limits.includes(chosen.limits)) chosen.limits = limits.length === 1 ? limits[0] : null;
    vacate();
  }

  /** Nothing is left on places that the state or the category closes. */
  function vacate() {
    chosen.loads.forEach((persons, station) => persons.forEach((_, seat) => {
      if (closed(station, seat)) persons[seat] = 0;
    }));
  }

  /** Why nothing can be loaded at a place; empty where something can. */
  function closed(station, seat) {
    if (chosen.state === null) return "";
    const state = plan.states[chosen.state], { name, places } = plan.stations[station];
    if (state.absent.includes(station)) return "not there on this undercarriage";
    if (chosen.limits !== null && plan.limits[chosen.limits].empty.includes(station)) return `stays empty in the ${plan.limits[chosen.limits].name} category`;
    if (places && seat >= state.seats[station]) return `taken by ${data.states[chosen.state].takers[station].join(" and ") || "equipment"}`;
    return "";
  }

  // --- the form --------------------------------------------------------------------------------------------------

  const fields = [];

  /** A row: label, field, unit, slider, note. `read` gives the amount in SI, `write` takes it. */
  function row({ id, label, kind, read, write, most, shut, note, per }) {
    const field = element("input", { id, type: "text", inputmode: "decimal", autocomplete: "off", "aria-describedby": `${id}-note`, input: () => entered(one) });
    const slider = most ? element("input", { type: "range", min: 0, "aria-label": `${label}, slider`, input: () => slid(one) }) : null;
    const unit = element("span", { class: "planner-unit" }), remark = element("p", { class: "planner-note", id: `${id}-note` });
    const made = element("div", { class: "planner-row" }, element("label", { for: id }, label), element("span", { class: "planner-entry" }, field, unit), slider, remark);
    const one = { id, label, kind, read, write, most, shut, note, per, field, slider, unit, remark, wrong: false };
    fields.push(one);
    return made;
  }

  /** What was typed: a number with a point, or with a comma in its place; nothing typed is nothing aboard. */
  function typed(text) {
    const plain = text.trim().replace(/^([0-9]*),([0-9]*)$/, "$1.$2");
    if (plain === "") return 0;
    return /^([0-9]+(\.[0-9]*)?|\.[0-9]+)$/.test(plain) && Number(plain) <= LARGEST ? Number(plain) : null;
  }

  function entered(one) {
    const value = typed(one.field.value);
    one.wrong = value === null;
    if (!one.wrong) one.write(value * factor(one.kind));
    setSlider(one);
    setNote(one);
    changed();
  }

  function slid(one) {
    one.wrong = false;
    one.write(Number(one.slider.value) * factor(one.kind));
    setField(one);
    setNote(one);
    changed();
  }

  /** Show the amount: as few digits as say it, since a change of units must not make it look measured finer. */
  function setField(one) {
    const value = one.read();
    const text = value === null || value === 0 ? "" : String(Number((value / factor(one.kind)).toFixed(DIGITS[symbol(one.kind)] + 1)));
    one.field.value = livePage.typedNumber(text);
    setSlider(one);
  }

  function setSlider(one) {
    if (!one.slider) return;
    const most = one.most(), top = most === null ? 0 : most / factor(one.kind);
    one.slider.hidden = most === null || top <= 0;
    one.slider.max = Math.floor(top * 10 + 1e-6) / 10;
    one.slider.step = symbol(one.kind) === "US gal" ? 0.5 : 1;
    one.slider.value = (one.read() || 0) / factor(one.kind);
    one.slider.setAttribute("aria-valuetext", said(amount(one.read() || 0, one.kind)));
  }

  function setNote(one) {
    const shut = one.shut ? one.shut() : "";
    one.field.disabled = Boolean(shut);
    if (one.slider) one.slider.disabled = Boolean(shut);
    one.field.setAttribute("aria-invalid", String(one.wrong));
    one.remark.textContent = said(one.wrong ? "This is no number. Write one as 31.5." : shut ? sentence(said(shut)) : one.note ? one.note() : "");
    one.unit.textContent = symbol(one.kind) + (one.per || "");
  }

  function setAll() {
    for (const one of fields) {
      if (!one.wrong || (one.shut && one.shut())) {
        one.wrong = false;
        setField(one);
      }
      setNote(one);
    }
  }

  /** What a place may hold: the least of the limits that count it in, in this state. */
  function room(station) {
    if (chosen.state === null) return data.maxima[station];
    const rooms = plan.groups.map((group, index) => (group.stations.includes(station) ? plan.states[chosen.state].room_kg[index] : null)).filter((one) => one !== null);
    return rooms.length ? Math.max(0, Math.min(...rooms)) : null;
  }

  function roomNote(station) {
    const most = room(station), { places, pilot, least_kg: least, instead_of: instead } = plan.stations[station];
    const words = [];
    if (most !== null) words.push(places > 1 ? `${amount(most, "weight", "down")} at most on these seats together` : `${amount(most, "weight", "down")} at most`);
    else if (!places) words.push("the job gives no maximum");
    if (pilot && least > 0) words.push(`${amount(least, "weight", "up")} at least`);
    if (instead.length) words.push(`loaded only while ${instead.map((other) => plan.stations[other].name).join(" and ")} is empty`);
    return words.length ? `${sentence(words.join("; "))}.` : "";
  }

  function loadRows(wanted) {
    return plan.stations.flatMap((station, index) => {
      if (!wanted(data.holds[index])) return [];
      return chosen.loads[index].map((_, seat) => row({
        id: `planner-load-${index}-${seat}`,
        label: chosen.loads[index].length > 1 ? `${sentence(station.name)}, seat ${seat + 1}` : sentence(station.name),
        kind: "weight",
        read: () => chosen.loads[index][seat],
        write: (value) => { chosen.loads[index][seat] = value; },
        most: () => room(index),
        shut: () => closed(index, seat),
        note: () => (seat ? "" : roomNote(index)),
      }));
    });
  }

  function fuelRows() {
    const tanks = plan.tanks.map((tank, index) => row({
      id: `planner-fuel-${index}`,
      label: `${sentence(tank.name)}, at engine start`,
      kind: "volume",
      read: () => chosen.fuel[index],
      write: (value) => { chosen.fuel[index] = value; },
      most: () => tank.usable_m3,
      note: () => `${amount(tank.usable_m3, "volume", "down")} usable, ${density(tank)}.`,
    }));
    return [...tanks, ...burnRows("taxi", "burnt before take-off"), ...burnRows("trip", "burnt from take-off to landing")];
  }

  function burnRows(name, words) {
    return chosen[name].map((_, index) => row({
      id: `planner-${name}-${index}`,
      label: plan.order.length ? `Fuel ${words}` : `${sentence(plan.tanks[index].name)}, ${words}`,
      kind: "volume",
      read: () => chosen[name][index],
      write: (value) => { chosen[name][index] = value; },
      most: name === "trip" ? () => (plan.order.length ? plan.tanks.reduce((total, tank) => total + tank.usable_m3, 0) : plan.tanks[index].usable_m3) : null,
    }));
  }

  const part = (title, ...children) => element("fieldset", { class: "planner-part" }, element("legend", {}, title), ...children);

  function select(id, label, options, value, change) {
    const made = element("select", { id, change: () => change(made.value) }, options.map(([key, words]) => element("option", { value: key, selected: key === value }, words === key ? document.createTextNode(words) : words)));
    return element("div", { class: "planner-row planner-choice" }, element("label", { for: id }, label), made);
  }

  function stateSelect() {
    const options = [["", "Choose the state that the aircraft is in"], ...plan.states.map((_, index) => [String(index), named(index)])];
    for (const one of data.lacking) options.push([`lacking ${one.state}`, `${one.state} (not computed)`]);
    return select("planner-state", "State of the equipment", options, chosen.state === null ? "" : String(chosen.state), (value) => {
      told.lacking = value.startsWith("lacking ") ? data.lacking.find((one) => `lacking ${one.state}` === value) : null;
      choose(value === "" || told.lacking ? null : Number(value));
      told.categories.replaceChildren(...categorySelect());
      setAll();
      changed();
    });
  }

  /** Categories of the chosen state; where there is only one, there is nothing to choose. */
  function categorySelect() {
    const indexes = chosen.state === null ? [] : plan.states[chosen.state].limits;
    if (indexes.length < 2) return [];
    const options = [["", "Choose the category flown in"], ...indexes.map((index) => [String(index), plan.limits[index].name])];
    return [select("planner-limits", "Category", options, chosen.limits === null ? "" : String(chosen.limits), (value) => {
      chosen.limits = value === "" ? null : Number(value);
      vacate();
      setAll();
      changed();
    })];
  }

  function unitSelects() {
    const names = { weight: "Weights in", length: "Arms in", volume: "Fuel in" };
    return Object.keys(names).map((kind) => {
      const options = Object.keys(data.units[kind]).map((one) => [one, one]);
      return select(`planner-unit-${kind}`, names[kind], options, symbol(kind), (value) => {
        chosen.units[kind] = value;
        setAll();
        changed();
      });
    });
  }

  /** The whole page, once; what changes is filled in by update(). */
  function build() {
    told = {
      categories: element("div", {}), status: element("div", { class: "planner-status", role: "status" }), heading: element("div", { class: "planner-verdict" }),
      chart: element("div", { class: "planner-chart" }), times: element("div", {}), checks: element("div", {}), price: element("div", {}),
      bar: element("span", {}), list: element("div", {}), sheet: element("section", { class: "planner-sheet", "aria-hidden": "true" }), lacking: null, soon: 0,
    };
    const flown = part("Aircraft and state", stateSelect(), told.categories, element("div", { class: "planner-units" }, unitSelects()));
    told.categories.append(...categorySelect());
    const bags = loadRows((holds) => holds === "baggage" || holds === "water");
    const form = element("form", { class: "planner-form", submit: (event) => event.preventDefault() }, flown,
      part("Seats", loadRows((holds) => holds === "pilot" || holds === "occupants")), bags.length ? part("Baggage", bags) : null, part("Fuel", fuelRows()),
      element("p", { class: "planner-buttons" },
        element("button", { type: "button", click: () => window.print() }, "Print for the kneeboard"),
        element("button", { type: "button", click: clear }, "Clear the loading")));
    const results = element("section", { class: "planner-results", "aria-labelledby": "planner-results" },
      element("h2", { id: "planner-results" }, "Result"), told.heading, told.chart, told.times, told.checks);
    const price = element("section", { class: "planner-price", "aria-labelledby": "planner-price" },
      element("h2", { id: "planner-price" }, "What the equipment costs to carry"), told.price,
      row({ id: "planner-burn", label: "Fuel burn an hour, from your flight manual", kind: "volume", per: "/h", read: () => chosen.burn, write: (value) => { chosen.burn = value || null; } }));
    const list = element("section", { class: "planner-list", "aria-labelledby": "planner-list" }, element("h2", { id: "planner-list" }, "Figures to type into another planner"), told.list);
    box.replaceChildren(identity(), told.status, element("div", { class: "planner-body" }, form, element("a", { class: "planner-bar", href: "#planner-results" }, told.bar), results), price, list, told.sheet);
    setAll();
  }

  function clear() {
    chosen.loads = empty();
    chosen.fuel = plan.tanks.map(() => 0);
    chosen.taxi = parts();
    chosen.trip = parts();
    for (const one of fields) one.wrong = false;
    setAll();
    changed();
  }

  /** Who it is for, and with which record it stands or falls. */
  function identity() {
    const { aircraft, docket, basis } = data;
    const pairs = [
      ["Aircraft", `${aircraft.model}, registration ${aircraft.registration}, serial number ${aircraft.serial}`],
      ...data.records.map((record) => [record.on ? `Weight record, ${record.on}` : "Weight record", `${record.title}, ${record.date}. Basis: ${record.basis}`]),
      ["Certification basis", basis.join(", ")],
      ["Docket", `${docket.number} revision ${docket.revision}, ${docket.date}, ${docket.shop}`],
      ["Status", data.standing || "nothing is open in the docket"],
    ];
    return element("section", { class: "planner-identity", "aria-label": "Aircraft and record" },
      element("dl", { class: "fields" }, pairs.map(([name, words]) => element("div", {}, element("dt", {}, name), " ", element("dd", {}, words)))),
      element("p", { class: "planner-valid" }, valid()));
  }

  /** The line without which nothing here holds. */
  function valid() {
    const records = chosen.state === null ? data.records : [data.records[data.states[chosen.state].on]];
    const dates = records.map((record) => `${record.date} (${record.on ? `${record.on}, ` : ""}${record.title})`).join(" and ");
    return `Valid only with the weight record dated ${dates} and with docket ${data.docket.number} revision ${data.docket.revision}.`;
  }

  // --- results ---------------------------------------------------------------------------------------------------

  /** The loading as it stands in the fields, or what keeps it from being worked out. */
  function current() {
    const wrong = fields.filter((one) => one.wrong);
    if (told.lacking) return { why: `The job lacks what this state needs: ${told.lacking.needs.join("; ")}.` };
    if (chosen.state === null) return { why: "Choose the state that the aircraft is in." };
    if (chosen.limits === null) return { why: "Choose the category flown in." };
    if (wrong.length) return { why: `Not computed: no number stands in ${wrong.map((one) => `\u201c${one.label}\u201d`).join(", ")}.` };
    const loading = { state: chosen.state, limits: chosen.limits, stations: chosen.loads, fuel: chosen.fuel, taxi: chosen.taxi, trip: chosen.trip };
    return { loading, found: plannerLoading.outcome(plan, loading) };
  }

  function changed() {
    keep();
    update();
  }

  function update() {
    const now = current();
    told.now = now;
    box.querySelector(".planner-valid").textContent = said(valid());
    if (now.found) {
      const verdict = judged(now.found);
      told.heading.replaceChildren(...headline(verdict));
      told.times.replaceChildren(timesTable(now.found, verdict));
      told.checks.replaceChildren(checksTable(verdict));
      told.bar.textContent = said(`Result: ${short(verdict)}`);
      told.bar.parentElement.hidden = false;
      say(verdict.words);
    } else {
      told.heading.replaceChildren(element("p", { class: "planner-none" }, now.why));
      told.times.replaceChildren();
      told.checks.replaceChildren();
      told.bar.parentElement.hidden = true; // what is still to choose stands beside its field
      say(now.why);
    }
    told.price.replaceChildren(...price());
    told.list.replaceChildren(...lists());
    draw();
    told.sheet.replaceChildren(...sheet(now));
  }

  /** Tell a screen reader, once the typing rests. */
  function say(text) {
    const words = said(text);
    window.clearTimeout(told.soon);
    told.soon = window.setTimeout(() => {
      if (told.status.textContent !== words) told.status.textContent = words;
    }, WAIT);
  }

  /** Checks in words; what is beyond a limit, what has none, and the rest. The centre of gravity with no fuel left is information. */
  function judged(found) {
    const lines = found.checks.filter((check) => check.of !== NO_FUEL || check.kind === "weight").map((check) => ({ check, ...inWords(check) }));
    const beyond = lines.filter((line) => line.check.verdict === "beyond" || line.check.verdict === "no limit");
    const { lateral } = data.limits[chosen.limits];
    const open = [...lines.filter((line) => line.check.verdict === "not given"), ...(lateral ? [{ what: "Lateral limits", margin: lateral }] : [])];
    const words = beyond.length ? `Outside: ${gathered(beyond).map((line) => `${line.what}, ${line.margin}`).join("; ")}.`
      : `Inside every limit given. ${closest(found)}${open.length ? ` Not held against: ${open.map((line) => line.what).join("; ")}.` : ""}`;
    return { lines, beyond, open, words, found };
  }

  /** The same lines, but all that is heavier than the envelope told once. */
  function gathered(beyond) {
    const above = beyond.filter((line) => line.check.verdict === "no limit");
    const rest = beyond.filter((line) => line.check.verdict !== "no limit");
    if (!above.length) return rest;
    const times = [...new Set(above.map((line) => ON[line.check.of]))];
    return [...rest, { what: `Centre of gravity, ${times.join(" and ")}`, margin: "heavier than the envelope reaches, no limit there" }];
  }

  /** The narrowest distance of the centre of gravity, and what is left to the maximum take-off weight. */
  function closest(found) {
    const sides = found.checks.filter((check) => (check.kind === "forward" || check.kind === "aft") && check.of !== NO_FUEL && check.inside !== null);
    const least = sides.reduce((one, other) => (other.inside < one.inside ? other : one));
    const takeoff = found.checks.find((check) => check.kind === "weight" && check.of === TAKEOFF);
    return `${amount(Math.max(0, takeoff.inside), "weight", "down")} below the maximum take-off weight; centre of gravity at least ${amount(Math.max(0, least.inside), "length", "down")} inside the ${least.kind} limit.`;
  }

  /** What a check is of, its value, its limit and its margin, in words and figures. */
  function inWords(check) {
    const { kind, of } = check, beyond = check.verdict === "beyond";
    if (check.verdict === "not given") return { what: sentence(kind === "weight" ? WEIGHT_NAMES[of] : of), value: amount(check.value, "weight"), limit: "missing", margin: missing(check) };
    if (kind === "forward" || kind === "aft") return ofCentre(check, beyond);
    if (kind === "weight" || kind === "group") {
      const what = kind === "weight" ? WEIGHT_NAMES[of] : of;
      return { what: sentence(what), value: amount(check.value, "weight"), limit: amount(check.limit, "weight", "down"), margin: by(check, "weight", "over the maximum", "below the maximum") };
    }
    if (kind === "pilot") {
      const margin = check.value > 0 ? by(check, "weight", "lighter than the least", "above the least") : "nobody sits in the pilot\u2019s seat";
      return { what: `${sentence(of)}, least`, value: amount(check.value, "weight"), limit: check.limit ? amount(check.limit, "weight", "up") : "more than nothing", margin };
    }
    if (kind === "tank") return { what: sentence(of), value: amount(check.value, "volume"), limit: amount(check.limit, "volume", "down"), margin: by(check, "volume", "more than it holds", "below full") };
    if (kind === "left") return { what: `${sentence(of)}, left at landing`, value: amount(Math.max(0, check.value), "volume"), limit: amount(0, "volume"), margin: by(check, "volume", "more burnt than is in it", "still in it") };
    if (kind === "seats") return { what: `${sentence(of)}, persons`, value: String(check.value), limit: String(check.limit), margin: beyond ? "more persons than seats in this state" : "seats enough" };
    if (kind === "empty") return { what: `${sentence(of)}, stays empty`, value: amount(check.value, "weight"), limit: amount(0, "weight"), margin: beyond ? "loaded although it stays empty" : "empty" };
    if (kind === "instead") return { what: `${sentence(of)}, beside what it stands in for`, value: amount(check.value, "weight"), limit: amount(0, "weight"), margin: beyond ? "both are loaded; one of them stays empty" : "not both loaded" };
    return { what: "Order of the tanks", value: amount(check.value, "volume"), limit: amount(0, "volume"), margin: beyond ? `not filled in the order ${plan.order.slice().reverse().map((index) => plan.tanks[index].name).join(", ")}` : "filled in order" };
  }

  function ofCentre(check, beyond) {
    const what = `${sentence(check.kind)} limit, ${ON[check.of]}`, value = amount(check.value, "length");
    if (check.verdict === "no limit") return { what, value, limit: "none", margin: "heavier than the envelope reaches" };
    const outward = check.kind === "forward" ? "ahead of the forward limit" : "behind the aft limit", inward = check.kind === "forward" ? "behind the forward limit" : "ahead of the aft limit";
    const at = check.of === BURN ? ` at ${amount(check.weight, "weight")}` : "";
    return { what, value, limit: amount(check.limit, "length"), margin: `${by(check, "length", outward, inward)}${at}` };
  }

  /** "4.47 in behind": where the centre of gravity lies from a limit. */
  function distance(check) {
    if (check.inside === null) return "no limit";
    const outside = check.verdict === "beyond", behind = (check.kind === "forward") !== outside;
    return `${amount(outside ? -check.inside : Math.max(0, check.inside), "length", outside ? "up" : "down")}\u00a0${behind ? "behind" : "ahead"}`;
  }

  /** "12.0 lb over the maximum": rounded against the pilot, so that no margin is printed larger than it is. */
  function by(check, kind, outward, inward) {
    if (check.verdict === "beyond") return `${amount(-check.inside, kind, "up")} ${outward}`;
    return `${amount(Math.max(0, check.inside), kind, "down")} ${inward}`;
  }

  function missing(check) {
    const need = chosen.limits === null ? "" : data.limits[chosen.limits].missing[check.of];
    return `limit missing: ${check.kind === "weight" && need ? need : "read the placard or the flight manual"}`;
  }

  const WORDS = { within: "within", beyond: "OUTSIDE", "not given": "LIMIT MISSING", "no limit": "OUTSIDE" };

  function headline(verdict) {
    const list = (lines) => element("ul", {}, lines.map((line) => element("li", {}, element("strong", {}, `${line.what}: `), line.margin)));
    const found = [];
    if (verdict.beyond.length) found.push(element("p", { class: "planner-outside" }, short(verdict)), list(gathered(verdict.beyond)));
    else found.push(element("p", { class: "planner-inside" }, short(verdict)), element("p", {}, closest(verdict.found)));
    if (verdict.open.length) found.push(element("p", { class: "planner-missing" }, "NOT HELD AGAINST"), list(verdict.open));
    return found;
  }

  /** The verdict in a few words; limits are counted as they are listed below it. */
  function short(verdict) {
    const { length } = gathered(verdict.beyond);
    return length ? `OUTSIDE ${length === 1 ? "one limit" : `${length} limits`}` : `Inside every limit given${verdict.open.length ? ", but not every limit is there" : ""}`;
  }

  /** A table in a box of its own, which scrolls where the page is narrow. */
  function table(title, head, rows, sides, kind) {
    const cell = (name, words, index) => element(name, { scope: name === "th" ? "row" : null, class: sides[index] || null, "data-label": head[index] || null }, words);
    return element("div", { class: "wide", tabindex: 0, role: "group", "aria-label": title },
      element("table", { class: kind ? `ruled ${kind}` : "ruled" }, element("caption", {}, title),
        element("thead", {}, element("tr", {}, head.map((words, index) => element("th", { scope: "col", class: sides[index] || null }, words)))),
        element("tbody", {}, rows.map((cells) => element("tr", {}, cells.map((words, index) => cell(index ? "td" : "th", words, index)))))));
  }

  function timesTable(found) {
    const rows = found.points.map((point) => {
      const sides = ["forward", "aft"].map((kind) => found.checks.find((check) => check.kind === kind && check.of === point.name));
      const words = sides.map((check) => (check ? distance(check) : ""));
      const outside = sides.some((check) => check && check.verdict !== "within");
      const standing = !sides[0] ? "" : point.name === NO_FUEL ? `for information: ${outside ? "outside" : "within"}` : outside ? "OUTSIDE" : "within";
      return [TIMES[point.name], figure(point.weight / factor("weight"), DIGITS[symbol("weight")]), moment(point.moment), figure(point.moment / point.weight / factor("length"), DIGITS[symbol("length")]), ...words, standing];
    });
    const head = ["", `Weight, ${symbol("weight")}`, `Moment, ${momentUnit()}`, `CG, ${symbol("length")}`, "From forward limit", "From aft limit", "Stands"];
    return table("Weights, moments and centres of gravity (CG), with the distance to each limit", head, rows, ["", "right", "right", "right", "", "", ""], "planner-times");
  }

  function checksTable(verdict) {
    const rows = verdict.lines.map((line) => [line.what, line.value, line.limit, line.margin, element("strong", {}, WORDS[line.check.verdict])]);
    return table("Every limit", ["", "Value", "Limit", "Margin", "Stands"], rows, ["", "right", "right", "", ""], "planner-checks");
  }

  /** The chart in the width that there is. */
  function draw() {
    const now = told.now;
    if (!now || !now.found) {
      told.chart.replaceChildren();
      return;
    }
    const width = Math.round(Math.max(260, told.chart.clientWidth || 600));
    told.chart.replaceChildren(chartOf(now, width, Math.round(Math.min(420, Math.max(280, width * 0.7)))), element("p", { class: "planner-key" }, key()));
  }

  const key = () => "T take-off, L landing, 0 no fuel left; the line between T and L is the burn. Heavy lines: forward and aft limit.";

  function chartOf(now, width, height) {
    return plannerChart.chart({
      limits: plan.limits[chosen.limits], found: now.found, width, height,
      shown: { weight: factor("weight"), length: factor("length") },
      names: { arm: said(`centre of gravity, ${symbol("length")} aft of the ${data.datum}`), weight: said(`weight, ${symbol("weight")}`) },
      words: said(`Chart of the centre-of-gravity envelope with this loading. ${judged(now.found).words}`),
    });
  }

  // --- the price -------------------------------------------------------------------------------------------------

  function price() {
    if (chosen.state === null) return [element("p", {}, "Choose the state that the aircraft is in.")];
    const { carried } = data.states[chosen.state];
    if (!carried) return [element("p", {}, "Nothing removable is in, in this state: nothing is carried for it.")];
    return [element("p", {}, `${priceInWords(carried)}. A full aircraft leaves that much fuel, or that much load, behind.`)];
  }

  /** "46.5 lb = 7.7 US gal at 6.0 lb/US gal = 46 min at 10 US gal/h": from unrounded figures. */
  function priceInWords(carried) {
    const hours = chosen.burn ? carried.fuel_m3 / chosen.burn : null;
    const time = hours === null ? "" : ` = ${figure(hours * 60, 0)}\u00a0min at ${figure(chosen.burn / factor("volume"), DIGITS[symbol("volume")])}\u00a0${symbol("volume")}/h`;
    const sum = `${amount(carried.weight_kg, "weight")} = ${amount(carried.fuel_m3, "volume")} of fuel at ${density(plan.tanks[0])}${time}`;
    return `${sentence(named(chosen.state))}, against ${carried.against}: ${sum}`;
  }

  // --- figures for another planner -------------------------------------------------------------------------------

  function lists() {
    const state = chosen.state === null ? null : plan.states[chosen.state];
    const weights = plan.states.map((one, index) => [named(index), amount(one.weight_kg, "weight"), amount(one.moment_kgm / one.weight_kg, "length"), moment(one.moment_kgm)]);
    const arms = plan.stations.map((station, index) => [station.name, amount(station.arm_m, "length"), station.places ? String(state ? state.seats[index] : station.places) : "", data.maxima[index] === null ? "none given" : amount(data.maxima[index], "weight", "down"), room(index) === null ? "none given" : amount(room(index), "weight", "down")]);
    const tanks = plan.tanks.flatMap((tank) => tank.points.map(([weight, held]) => [tank.name, amount(weight / tank.density_kg_m3, "volume"), amount(held / weight, "length"), density(tank), amount(weight, "weight")]));
    const groups = plan.groups.filter((group) => group.stations.length > 1).map((group) => [group.name, group.stations.map((one) => plan.stations[one].name).join(", "), state ? roomOf(plan.groups.indexOf(group)) : ""]);
    return [
      element("p", {}, `Arms are from the ${data.datum}, positive aft. Empty weights are with full oil.`),
      table("Empty weight by state", ["State", "Weight", "Arm", `Moment, ${momentUnit()}`], weights, ["", "right", "right", "right"]),
      table("Stations", ["Station", "Arm", state ? "Seats in this state" : "Seats", "Maximum", state ? "Left in this state" : "Least of its limits"], arms, ["", "right", "right", "right", "right"]),
      ...(groups.length ? [table("Limits that stations share", ["Limit", "Stations", "Left in this state"], groups, ["", "", "right"])] : []),
      table("Tanks", ["Tank", "Contents", "Arm of the contents", "Density", "Weight"], tanks, ["", "right", "right", "right", "right"]),
      ...(plan.order.length > 1 ? [element("p", {}, `Tanks are emptied in the order ${plan.order.map((index) => plan.tanks[index].name).join(", ")}.`)] : []),
      ...plan.limits.map(limitsTable),
    ];
  }

  const roomOf = (group) => (plan.states[chosen.state].room_kg[group] === null ? "none given" : amount(plan.states[chosen.state].room_kg[group], "weight", "down"));

  function limitsTable(limits, index) {
    const { on, declined } = data.limits[index];
    const corners = ["forward", "aft"].flatMap((side) => limits[side].points.map(([weight, second]) => [`${side} limit`, amount(weight, "weight"), amount(limits[side].in_moment ? second / weight : second, "length")]));
    const most = limits.weights.map(([when, weight]) => [`maximum ${WEIGHT_NAMES[when]}`, weight === null ? "missing" : amount(weight, "weight", "down"), ""]);
    const none = declined.map((name) => [`maximum ${name} weight`, "the aircraft has none", ""]);
    const shape = limits.forward.in_moment ? "straight in moment between corners" : "straight in arm between corners";
    return table(`Limits, ${limits.name || "category not said"}${on ? ` on ${on}` : ""}: ${shape}, constant below the first`, ["Limit", "Weight", "Arm"], [...most, ...none, ...corners], ["", "right", "right"]);
  }

  // --- the sheet for print ---------------------------------------------------------------------------------------

  /** What goes on the kneeboard: one small page. */
  function sheet(now) {
    const { aircraft, docket } = data;
    const head = [
      element("p", { class: "planner-sheet-head" }, element("strong", {}, `${aircraft.registration} `), `${aircraft.model}, serial number ${aircraft.serial}`),
      ...(data.standing ? [element("p", { class: "planner-outside" }, data.standing)] : []),
      element("p", {}, element("strong", {}, valid())),
    ];
    if (!now.found) return [...head, element("p", { class: "planner-outside" }, `NO LOADING: ${now.why}`)];
    const verdict = judged(now.found), { carried } = data.states[chosen.state], limits = plan.limits[chosen.limits];
    const line = (name, weight, arm) => [name, figure(weight / factor("weight"), 1), figure(arm / factor("length"), DIGITS[symbol("length")]), moment(weight * arm)];
    const state = plan.states[chosen.state];
    const loads = plan.stations.flatMap((station, index) => chosen.loads[index].map((load, seat) => [load, seat, station]).filter(([load]) => load > 0)
      .map(([load, seat]) => line(chosen.loads[index].length > 1 ? `${station.name}, seat ${seat + 1}` : station.name, load, station.arm_m)));
    const fuel = plan.tanks.map((tank, index) => `${tank.name} ${amount(chosen.fuel[index], "volume")}`).join(", ");
    const total = (one) => one.reduce((sum, value) => sum + value, 0);
    return [...head,
      element("p", {}, `State: ${named(chosen.state)}. Category: ${limits.name || "not said"}. Fuel at start: ${fuel}; before take-off ${amount(total(chosen.taxi), "volume")}, to landing ${amount(total(chosen.trip), "volume")}.`),
      ...headline(verdict),
      table("Loading", ["", symbol("weight"), symbol("length"), momentUnit()], [line(said("empty") + ", " + named(chosen.state), state.weight_kg, state.moment_kgm / state.weight_kg), ...loads], ["", "right", "right", "right"]),
      timesTable(now.found),
      chartOf(now, 600, 190), element("p", { class: "planner-key" }, key()),
      ...(carried ? [element("p", {}, `Carrying the equipment: ${priceInWords(carried)}.`)] : []),
      element("p", { class: "planner-key" }, `The flight manual and the weight record in force come first; this sheet supports the pilot\u2019s own decision and replaces neither. Reserves and performance are not on it. Docket ${docket.number} revision ${docket.revision}, job digest ${data.digest.slice(0, 12)}. Pilot and date: ____________________`),
    ];
  }

  start();
})();
