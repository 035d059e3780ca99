/*
 * The envelope with a loading in it: weight over arm, as an SVG element in the units of the page.
 *
 * Lines and marks differ in shape and letter, so that the chart reads in black and white; what lies outside is also said in words
 * beside it. Drawn for a width in CSS pixels, so that its letters stay as large as the text around it.
 */
const plannerChart = (function () {
  "use strict";

  const SVG = "http://www.w3.org/2000/svg";
  const MARGIN = { left: 52, right: 14, top: 14, bottom: 42 };
  const PIECES = 12; // a limit straight in moment is a curve over arms: so many pieces of it are drawn between two corners

  /** The chart. `shown` turns SI into the units of the page; `words` is what a screen reader says of it. */
  function chart({ limits, found, width, height, shown, names, words }) {
    const svg = node("svg", { viewBox: `0 0 ${width} ${height}`, width, height, role: "img", "aria-label": words });
    const lines = { forward: line(limits.forward), aft: line(limits.aft) };
    const scale = scales(lines, limits, found, width, height);
    grid(svg, scale, width, height, shown, names);
    svg.append(node("polygon", { class: "region", points: joined([...foot(lines.forward, scale), ...lines.forward, ...[...foot(lines.aft, scale), ...lines.aft].reverse()], scale) }));
    for (const side of ["forward", "aft"]) svg.append(node("polyline", { class: "limit", points: joined([...foot(lines[side], scale), ...lines[side]], scale) }));
    heaviest(svg, scale, limits.weights.filter(([name, most]) => most !== null && name !== "ramp"), width);
    for (const path of found.paths) svg.append(node("polyline", { class: "burn", points: joined(path.map(placed), scale) }));
    marks(svg, scale, found);
    return svg;
  }

  function node(name, attributes, ...children) {
    const made = document.createElementNS(SVG, name);
    for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
    made.append(...children);
    return made;
  }

  /** Corners of a limit as [arm, weight], with points between where it is drawn straight in moment. */
  function line(limit) {
    if (!limit.in_moment) return limit.points.map(([weight, arm]) => [arm, weight]);
    const found = [];
    limit.points.forEach(([weight, moment], index) => {
      const [before, momentBefore] = index ? limit.points[index - 1] : [weight, moment];
      for (let piece = index ? 1 : PIECES; piece <= PIECES; piece += 1) {
        const at = before + (weight - before) * piece / PIECES;
        found.push([(momentBefore + (moment - momentBefore) * piece / PIECES) / at, at]);
      }
    });
    return found;
  }

  const placed = (point) => [point.moment / point.weight, point.weight];
  const foot = (corners, scale) => (corners[0][1] > scale.low ? [[corners[0][0], scale.low]] : []);
  const joined = (places, scale) => places.map(([arm, weight]) => `${scale.x(arm).toFixed(1)},${scale.y(weight).toFixed(1)}`).join(" ");

  /** Where arms and weights lie: all of the envelope, and the loading however far out it is. */
  function scales(lines, limits, found, width, height) {
    const places = [...lines.forward, ...lines.aft, ...found.points.map(placed)];
    const weights = [...places.map((place) => place[1]), ...limits.weights.map((one) => one[1]).filter((most) => most !== null)];
    const arms = places.map((place) => place[0]);
    const span = (values, share) => {
      const low = Math.min(...values), high = Math.max(...values), spare = (high - low || 1) * share;
      return [low - spare, high + spare];
    };
    const [left, right] = span(arms, 0.08), [low, high] = span(weights, 0.07);
    return {
      left, right, low, high,
      x: (arm) => MARGIN.left + (arm - left) / (right - left) * (width - MARGIN.left - MARGIN.right),
      y: (weight) => height - MARGIN.bottom - (weight - low) / (high - low) * (height - MARGIN.top - MARGIN.bottom),
    };
  }

  /** Round figures between two ends, about `count` of them. */
  function ticks(low, high, count) {
    const rough = (high - low) / count, power = 10 ** Math.floor(Math.log10(rough));
    const step = [1, 2, 5, 10].map((one) => one * power).find((one) => one >= rough);
    const found = [];
    for (let value = Math.ceil(low / step) * step; value <= high; value += step) found.push(value);
    return { found, digits: Math.max(0, -Math.floor(Math.log10(step) + 1e-9)) };
  }

  function grid(svg, scale, width, height, shown, names) {
    const bottom = height - MARGIN.bottom, right = width - MARGIN.right;
    const arms = ticks(scale.left / shown.length, scale.right / shown.length, Math.max(2, width / 90));
    for (const value of arms.found) {
      const x = scale.x(value * shown.length);
      svg.append(node("line", { class: "grid", x1: x, y1: MARGIN.top, x2: x, y2: bottom }));
      svg.append(node("text", { x, y: bottom + 16, "text-anchor": "middle" }, livePage.said(value.toFixed(arms.digits).replace("-", "\u2212"))));
    }
    const weights = ticks(scale.low / shown.weight, scale.high / shown.weight, Math.max(2, height / 60));
    for (const value of weights.found) {
      const y = scale.y(value * shown.weight);
      svg.append(node("line", { class: "grid", x1: MARGIN.left, y1: y, x2: right, y2: y }));
      svg.append(node("text", { x: MARGIN.left - 6, y: y + 4, "text-anchor": "end" }, livePage.said(value.toFixed(weights.digits))));
    }
    svg.append(node("rect", { class: "frame", x: MARGIN.left, y: MARGIN.top, width: right - MARGIN.left, height: bottom - MARGIN.top }));
    svg.append(node("text", { x: (MARGIN.left + right) / 2, y: height - 6, "text-anchor": "middle" }, names.arm));
    const middle = (MARGIN.top + bottom) / 2;
    svg.append(node("text", { x: 12, y: middle, "text-anchor": "middle", transform: `rotate(-90 12 ${middle})` }, names.weight));
  }

  /** A line for each largest weight, broken otherwise for each; those that are the same share a line and a name, which stands below it. */
  function heaviest(svg, scale, weights, width) {
    const kinds = { "take-off": "", landing: "8 4", "no fuel": "2 3" }, names = { "take-off": "take-off", landing: "landing", "no fuel": "zero-fuel" };
    const lines = [...new Set(weights.map(([, most]) => most))].map((most) => [most, weights.filter((one) => one[1] === most).map(([name]) => name)]);
    for (const [most, same] of lines) {
      const y = scale.y(most);
      svg.append(node("line", { class: "most", x1: MARGIN.left, y1: y, x2: width - MARGIN.right, y2: y, "stroke-dasharray": kinds[same[0]] }));
      const words = livePage.said(`maximum ${same.map((name) => names[name]).join(" and ")}`);
      const [x, anchor] = { "take-off": [MARGIN.left + 6, "start"], landing: [width / 2, "middle"], "no fuel": [width - MARGIN.right - 6, "end"] }[same[0]];
      svg.append(node("text", { class: "over", x, y: y + 13, "text-anchor": anchor }, words));
    }
  }

  function marks(svg, scale, found) {
    const [, takeoff, landing, dry] = found.points;
    const shapes = [
      [dry, "0", (x, y) => node("path", { class: "mark open", d: `M${x} ${y - 6}L${x + 6} ${y + 5}H${x - 6}Z` }), [0, 18, "middle"]],
      [landing, "L", (x, y) => node("rect", { class: "mark", x: x - 5, y: y - 5, width: 10, height: 10 }), [-9, 4, "end"]],
      [takeoff, "T", (x, y) => node("circle", { class: "mark", cx: x, cy: y, r: 5.5 }), [9, 4, "start"]],
    ];
    for (const [point, letter, shape, [right, down, anchor]] of shapes) {
      const x = scale.x(point.moment / point.weight), y = scale.y(point.weight);
      svg.append(shape(x, y), node("text", { class: "letter", x: x + right, y: y + down, "text-anchor": anchor }, letter));
    }
  }

  return { chart };
})();
