// The lot as the study left it; see lot.go for what the fields mean. Empty
// lists come as null.
const lot = JSON.parse(document.getElementById("lot").textContent, (k, v) => v === null ? [] : v);

// ---- The ledger's terms: energy × what the standing trees let through ----

const factors = lot.narrow ? new Uint8Array(bytes(lot.factors)) : new Uint16Array(bytes(lot.factors));
const termFactor = lot.wide ? new Uint32Array(bytes(lot.index)) : new Uint16Array(bytes(lot.index));
const termEnergy = new Uint16Array(bytes(lot.energy));
const factorAt = [];
for (let i = 0; i < factors.length; i += 2 + factors[i + 1]) factorAt.push(i);

// passed gives for every factor the product of what its standing blockers let
// through. gone[tree] is true where the tree is out.
function passed(gone) {
  const out = new Float64Array(factorAt.length);
  factorAt.forEach((at, f) => {
    let tau = 1;
    for (let k = 0; k < factors[at + 1]; k++) {
      const b = lot.blockers[factors[at + 2 + k]];
      if (!gone[b.tree]) tau *= b.tau[factors[at]];
    }
    out[f] = tau;
  });
  return out;
}

function reach(reading, pass) {
  let sum = 0;
  for (let i = reading.first; i < reading.first + reading.count; i++) sum += termEnergy[i] * pass[termFactor[i]];
  return reading.fixed + reading.unit * sum;
}

// sun of some surfaces together, kWh/m² weighted by area.
function sunOf(members, pass) {
  const out = {area: 0, heating: 0, year: 0, openHeating: 0, openYear: 0};
  for (const i of members) {
    const s = lot.surfaces[i], h = reach(s.heating, pass), r = reach(s.rest, pass);
    out.area += s.area;
    out.heating += s.area * h;
    out.year += s.area * (h + r);
    out.openHeating += s.area * s.heating.open;
    out.openYear += s.area * (s.heating.open + s.rest.open);
  }
  for (const k of ["heating", "year", "openHeating", "openYear"]) out[k] = out.area > 0 ? out[k] / out.area : 0;
  return out;
}

// ---- Where the sun is ----

// sunAt is the direction to the sun, x east, y north, z up, on a day of the
// year (1..365) at an hour of local standard time, without refraction.
// J. J. Michalsky, "The Astronomical Almanac's algorithm for approximate solar
// position (1950–2050)", Solar Energy 40(3), 1988.
function sunAt(day, hour) {
  const p = lot.sun, rad = Math.PI / 180;
  const n = (Date.UTC(p.year, 0, day) - Date.UTC(2000, 0, 1, 12)) / 86400000 + (hour - p.offset) / 24;
  const g = (357.528 + 0.9856003 * n) * rad;
  const long = (280.460 + 0.9856474 * n + 1.915 * Math.sin(g) + 0.020 * Math.sin(2 * g)) * rad;
  const tilt = (23.439 - 0.0000004 * n) * rad;
  const ascension = Math.atan2(Math.cos(tilt) * Math.sin(long), Math.cos(long));
  const declination = Math.asin(Math.sin(tilt) * Math.sin(long));
  // Greenwich mean sidereal time in hours, n counted to the moment itself.
  const sidereal = 18.697375 + 24.0657098242 * n;
  const turn = (sidereal * 15 + p.longitude) * rad - ascension, lat = p.latitude * rad;
  return {
    x: -Math.cos(declination) * Math.sin(turn),
    y: Math.sin(declination) * Math.cos(lat) - Math.cos(declination) * Math.sin(lat) * Math.cos(turn),
    z: Math.sin(declination) * Math.sin(lat) + Math.cos(declination) * Math.cos(lat) * Math.cos(turn),
  };
}

// ---- Shadows on level ground ----

// hull is the convex hull of points, counter-clockwise (A. M. Andrew's
// monotone chain, Information Processing Letters 9, 1979).
function hull(points) {
  points.sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = list => {
    const out = [];
    for (const p of list) {
      while (out.length > 1) {
        const a = out[out.length - 2], b = out[out.length - 1];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 0) break;
        out.pop();
      }
      out.push(p);
    }
    out.pop();
    return out;
  };
  return half(points).concat(half(points.slice().reverse()));
}

// fallen is the outline of a crown's or trunk's shadow: the hull of its level
// sections, each slid along the sun's rays to the ground.
function fallen(solid, sun) {
  const points = [], bottom = Math.max(0, solid.bottom), levels = 24;
  const sin = Math.sin(solid.twist), cos = Math.cos(solid.twist);
  for (let i = 0; i <= levels; i++) {
    // Closer together toward the ends, where a round crown bends most.
    const z = bottom + (solid.top - bottom) * (1 - Math.cos(Math.PI * i / levels)) / 2;
    const r = Math.sqrt(Math.max(0, solid.abc[0] + (solid.abc[1] + solid.abc[2] * z) * z));
    for (let k = 0; k < 32; k++) {
      const a = k * Math.PI / 16, x = solid.semi[0] * r * Math.cos(a), y = solid.semi[1] * r * Math.sin(a);
      points.push([solid.at[0] + x * cos + y * sin - z * sun.x / sun.z, solid.at[1] - x * sin + y * cos - z * sun.y / sun.z]);
    }
  }
  return hull(points);
}

// ---- Drawing ----

const svgSpace = "http://www.w3.org/2000/svg";
function draw(parent, name, attributes, words) {
  const e = document.createElementNS(svgSpace, name);
  for (const k in attributes) e.setAttribute(k, attributes[k]);
  if (words !== undefined) e.textContent = words;
  parent.appendChild(e);
  return e;
}
function element(parent, name, attributes, words) {
  const e = document.createElement(name);
  for (const k in attributes) e.setAttribute(k, attributes[k]);
  if (words !== undefined) e.textContent = words;
  parent.appendChild(e);
  return e;
}
// North is up, so y runs against the screen's.
const path = (ring, close) => ring.length ? "M" + ring.map(p => p[0].toFixed(2) + " " + (-p[1]).toFixed(2)).join("L") + (close ? "Z" : "") : "";

const byId = id => document.getElementById(id);
const red = "#b34700", ink = "#1c1e21", pencil = "#55595e";
const plan = byId("plan"), box = lot.plan.box;
const wide = box[2] - box[0], high = box[3] - box[1], letter = Math.max(wide, high) / 44;
plan.setAttribute("viewBox", [box[0], -box[3], wide, high].map(x => x.toFixed(2)).join(" "));
const thin = letter / 14;

const defs = draw(plan, "defs", {});
const hatch = draw(defs, "pattern", {id: "hatch", width: letter * .45, height: letter * .45, patternUnits: "userSpaceOnUse", patternTransform: "rotate(45)"});
draw(hatch, "rect", {width: letter, height: letter, fill: "#fff"});
draw(hatch, "line", {x1: 0, y1: 0, x2: 0, y2: letter, stroke: pencil, "stroke-width": thin * 1.2});
const groundLayer = draw(plan, "g", {id: "ground"});
draw(draw(defs, "clipPath", {id: "lot-line"}), "path", {d: path(lot.plan.lot, true)});
groundLayer.setAttribute("clip-path", "url(#lot-line)");
const shadowLayer = draw(plan, "g", {id: "shadows"});
const fixedLayer = draw(plan, "g", {});
const crownLayer = draw(plan, "g", {id: "crowns"});
const letters = draw(plan, "g", {"font-size": letter, "text-anchor": "middle", "pointer-events": "none"});

function label(layer, x, y, words, more) {
  return draw(layer, "text", Object.assign({x, y: -y + letter * .35, "font-size": letter, "text-anchor": "middle", stroke: "#fff", "stroke-width": letter * .22, "paint-order": "stroke", "stroke-linejoin": "round"}, more), words);
}

function drawFixed() {
  draw(fixedLayer, "path", {d: path(lot.plan.lot, true), fill: "none", stroke: ink, "stroke-width": thin, "stroke-dasharray": [letter * .9, letter * .25, letter * .2, letter * .25]});
  for (const b of lot.plan.buildings) {
    let west = 1e9, east = -1e9, south = 1e9, north = -1e9;
    for (const ring of b.walls) {
      draw(fixedLayer, "path", {d: path(ring, true), fill: b.own ? "url(#hatch)" : "#e4e5e7", stroke: ink, "stroke-width": thin * (b.own ? 2 : 1)});
      for (const p of ring) {
        west = Math.min(west, p[0]); east = Math.max(east, p[0]); south = Math.min(south, p[1]); north = Math.max(north, p[1]);
      }
    }
    const x = (Math.max(west, box[0]) + Math.min(east, box[2])) / 2, y = (Math.max(south, box[1]) + Math.min(north, box[3])) / 2;
    const room = Math.min(east, box[2]) - Math.max(west, box[0]);
    if (room > b.name.length * letter * .5 && y > box[1] + letter * 2.5) label(letters, x, y, b.name);
  }
  for (const f of lot.plan.fences) draw(fixedLayer, "path", {d: path(f.line), fill: "none", stroke: ink, "stroke-width": thin * 2});
  for (const w of lot.plan.wires) {
    draw(fixedLayer, "path", {d: path(w.line), fill: "none", stroke: red, "stroke-width": thin * 1.5, "stroke-dasharray": [thin * 2, thin * 5]});
    const a = w.line[0], b = w.line[w.line.length - 1];
    draw(letters, "text", {x: 0, y: 0, "font-size": letter * .8, "text-anchor": "middle", transform: `translate(${(a[0] + b[0]) / 2 - letter * .4} ${-(a[1] + b[1]) / 2}) rotate(${upright(Math.atan2(-(b[1] - a[1]), b[0] - a[0]) * 180 / Math.PI)})`, fill: red, stroke: "#fff", "stroke-width": letter * .2, "paint-order": "stroke"}, w.name);
  }
  // North arrow and a scale of 20 ft or 5 m.
  const x = box[0] + letter, y = box[1] + letter * 1.6;
  draw(letters, "path", {d: `M${x} ${-y + letter}V${-y - letter * .3}M${x - letter * .35} ${-y + letter * .3}L${x} ${-y - letter * .4}L${x + letter * .35} ${-y + letter * .3}`, fill: "none", stroke: ink, "stroke-width": thin * 2});
  label(letters, x + letter * .8, y - letter * .4, "N", {"font-weight": "bold"});
  const long = lot.feet ? 20 * .3048 : 5, left = box[2] - long - letter, foot = box[1] + letter * .8;
  draw(letters, "path", {d: `M${left} ${-foot - letter * .3}V${-foot}H${left + long}V${-foot - letter * .3}`, fill: "none", stroke: ink, "stroke-width": thin * 2});
  label(letters, left + long / 2, foot + letter * .8, lot.feet ? "20 ft" : "5 m");
}
const upright = a => a > 90 ? a - 180 : a < -90 ? a + 180 : a;

const crowns = [], pressed = [];
function drawCrowns() {
  lot.trees.forEach((t, i) => {
    const g = draw(crownLayer, "g", {"data-tree": i});
    draw(g, "title", {}, t.id + ": " + t.words);
    const crown = draw(g, "ellipse", {cx: t.at[0], cy: -t.at[1], rx: t.semi[0], ry: t.semi[1], transform: `rotate(${t.twist * 180 / Math.PI} ${t.at[0]} ${-t.at[1]})`});
    draw(g, "circle", {cx: t.at[0], cy: -t.at[1], r: letter * .22, fill: ink});
    const s = Math.min(t.semi[0], t.semi[1]) * .7;
    const cross = draw(g, "path", {d: `M${t.at[0] - s} ${-t.at[1] - s}L${t.at[0] + s} ${-t.at[1] + s}M${t.at[0] - s} ${-t.at[1] + s}L${t.at[0] + s} ${-t.at[1] - s}`, stroke: red, "stroke-width": thin * 2.5});
    crowns.push({crown, cross, name: label(letters, t.at[0], t.at[1] + letter * .9, t.id, {"font-weight": "bold"})});
  });
}

// The crown that was tapped: the nearest trunk whose crown, or whose circle of
// 44 screen points across, holds the point.
plan.addEventListener("click", e => {
  const m = plan.getScreenCTM(), at = new DOMPoint(e.clientX, e.clientY).matrixTransform(m.inverse());
  const finger = 22 / m.a;
  let best = -1, least = Infinity;
  lot.trees.forEach((t, i) => {
    const d = Math.hypot(at.x - t.at[0], -at.y - t.at[1]);
    if (d <= Math.max(finger, t.semi[0], t.semi[1]) && d < least) { best = i; least = d; }
  });
  if (best >= 0) { gone[best] = !gone[best]; change(); }
});

// ---- Words ----

const number = (x, digits) => {
  const s = Math.abs(x).toLocaleString("en-US", {minimumFractionDigits: digits || 0, maximumFractionDigits: digits || 0});
  return x < 0 && /[1-9]/.test(s) ? "−" + s : s;
};
const signed = x => Math.round(x) > 0 ? "+" + number(x) : number(x);
const dollars = x => "$" + number(Math.round(x));
const percent = (x, of) => of > 0 ? Math.round(100 * Math.min(1, x / of)) + "\u00a0%" : "–";
const monthNames = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
function dateWords(day) {
  const d = new Date(Date.UTC(lot.sun.year, 0, day));
  return d.getUTCDate() + " " + monthNames[d.getUTCMonth()];
}
const hourWords = h => Math.floor(h) + ":" + String(Math.round(h % 1 * 60)).padStart(2, "0");
const winds = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

// ---- What changes with every tick ----

const heatOf = lot.heat.sets === undefined ? null : heatModel(lot.heat, lot);
// heatFigure writes kWh in the page's unit of heat as the study rounds it: two
// digits, three from 100 up, none finer than a kWh or a hundredth of a million Btu.
function heatFigure(kWh, sign) {
  const x = lot.feet ? kWh / 293.071 : kWh, places = lot.feet ? 2 : 0;
  const size = Number(Math.abs(x).toPrecision(Math.abs(x) >= 100 ? 3 : 2));
  if (size < .5 * 10 ** -places) return "0";
  return (x < 0 ? "−" : sign ? "+" : "") + number(size, Math.min(places, Math.max(0, 1 - Math.floor(Math.log10(size)))));
}
// estimate writes estimated money as the study rounds it: two digits, no cents.
const estimate = x => dollars(Number(Math.abs(x).toPrecision(2)));
const signedDollars = x => (estimate(x) === "$0" ? "" : x < 0 ? "−" : "+") + estimate(x);

const gone = lot.trees.map(() => false);
const none = lot.trees.map(() => false), passToday = passed(none);

function row(body, head, cells, names) {
  const tr = element(body, "tr", {});
  element(tr, "th", {scope: "row"}, head);
  cells.forEach((c, i) => element(tr, "td", {"data-head": names[i], "data-value": c[1], class: c[2] || ""}, c[0]));
}

function fill(body, list, pass) {
  body.textContent = "";
  const names = ["open field", "today", "this set", "change", "access", "year", "access, year"];
  for (const g of list) {
    const now = sunOf(g.members, pass), before = sunOf(g.members, passToday);
    row(body, g.name, [
      [number(now.openHeating), now.openHeating], [number(before.heating), before.heating], [number(now.heating), now.heating, "now"],
      [signed(now.heating - before.heating), now.heating - before.heating], [percent(now.heating, now.openHeating), now.openHeating > 0 ? now.heating / now.openHeating : 0],
      [number(now.year), now.year], [percent(now.year, now.openYear), now.openYear > 0 ? now.year / now.openYear : 0],
    ], names);
  }
}

function showSums(pass) {
  fill(byId("sums").tBodies[0], lot.groups, pass);
  fill(byId("all").tBodies[0], lot.surfaces.map((s, i) => ({name: s.words, members: [i]})), pass);
}

function showBar(pass) {
  const words = lot.groups.slice(0, 3).map(g => { const x = sunOf(g.members, pass); return g.name + " " + percent(x.heating, x.openHeating); });
  byId("bar").textContent = byId("chosen").textContent + " · " + words.join(" · ") + " · " + dollars(Number(byId("cost").dataset.value)) + (heatOf && Number(byId("heat").dataset.dollars) ? (byId("heat").dataset.dollars < 0 ? " · costs " : " · saves ") + estimate(Number(byId("heat").dataset.dollars)) + " a year" : "");
}

function names(list) { return list.map(i => lot.trees[i].id).join(", "); }

function showMoney(pass) {
  const out = lot.trees.map((t, i) => i).filter(i => gone[i]);
  byId("chosen").textContent = out.length ? "Gone: " + names(out) : "All trees stand, as today";
  const own = out.filter(i => !lot.trees[i].whose), others = out.filter(i => lot.trees[i].whose);
  const sum = list => list.reduce((s, i) => s + lot.trees[i].cost, 0);
  let words = "Cost of removal: " + dollars(sum(out)) + (out.some(i => !lot.trees[i].known) ? " *, part of it the species table’s guess" : "");
  if (others.length) words += "; " + dollars(sum(others)) + " of it for trees not yours to remove (" + names(others) + ")";
  if (lot.budget > 0) words += sum(out) > lot.budget ? ". Over the budget of " + dollars(lot.budget) + " by " + dollars(sum(out) - lot.budget) : ". Left of the budget of " + dollars(lot.budget) + ": " + dollars(lot.budget - sum(out));
  const cost = byId("cost");
  cost.textContent = words + ".";
  cost.dataset.value = sum(out);
  cost.dataset.own = sum(own);
  showHeat(out, sum(out));
  document.querySelectorAll("#sets button").forEach((b, k) => b.setAttribute("aria-pressed", String(sameSet(lot.sets[k].gone, out))));
}
// showHeat says what the set does for the mended house's heat, and the money.
function showHeat(out, cost) {
  const words = byId("heat");
  if (!heatOf) { words.textContent = "Heat is not worked out on this page for this lot; southyard heat prints it."; return; }
  if (!out.length) {
    words.textContent = "Heat and money are counted against today’s trees, in the mended house: take a tree out to see them.";
    for (const k of ["windows", "air", "water", "heat", "dollars"]) words.dataset[k] = 0;
    return;
  }
  const x = heatOf(gone), less = k => `${heatFigure(Math.abs(k))} ${lot.heatIn} ${k < 0 ? "more" : "less"}`;
  let text = `Heat a year: ${less(x.windows)} to buy, thanks to the sun through the windows`;
  if (lot.heat.heaters.length) text += `; the air heaters give ${heatFigure(x.air)} ${x.air < 0 ? "" : "more"}`;
  if (lot.heat.water.load) text += `; hot water ${heatFigure(x.water)} ${x.water < 0 ? "" : "more"}`;
  text += `. ${estimate(x.dollars)} a year ${x.dollars < 0 ? "more" : "less"} to pay`;
  if (cost > 0) text += x.dollars > 0 && cost / x.dollars <= 100 ? `: at today’s prices the removal is paid back in ${cost / x.dollars < 3 ? (cost / x.dollars).toFixed(1) : number(Math.round(cost / x.dollars))} years` : ": the removal is not paid back within 100 years";
  if (x.summer > .5) text += `. In summer ${heatFigure(x.summer)} ${lot.heatIn} more heat through the windows`;
  words.textContent = text + "." + (lot.heat.coil ? " The duct coil is left out here; the study counts it." : "");
  for (const k of ["windows", "air", "water", "heat", "dollars"]) words.dataset[k] = x[k];
}
const sameSet = (a, b) => a.length === b.length && a.every((x, i) => x === b[i]);

// change of the aim's sun if one more tree changes sides.
function showTrees(pass) {
  const target = lot.targets[byId("target").value], now = target ? reach(target.sun, pass) : 0;
  const next = lot.trees.map((t, i) => {
    if (!target) return 0;
    const other = gone.slice();
    other[i] = !other[i];
    return reach(target.sun, passed(other)) - now;
  });
  const standing = lot.trees.map((t, i) => i).filter(i => !gone[i] && next[i] > .5).sort((a, b) => next[b] - next[a] || a - b);
  if (target) {
    const words = byId("rank-words");
    words.textContent = `Aim: ${target.name}, ${target.season}. Now ${number(now)} kWh in the season; an open field would give ${number(target.sun.open)} (access ${percent(now, target.sun.open)}).`;
    words.dataset.value = now;
  }
  const here = heatOf ? heatOf(gone) : null;
  lot.trees.forEach((t, i) => {
    const r = treeRows[i], place = standing.indexOf(i);
    r.tr.className = gone[i] ? "gone" : "";
    r.tick.checked = !gone[i];
    r.rank.textContent = place >= 0 ? place + 1 : "–";
    r.sun.textContent = Math.abs(next[i]) < .5 ? "0" : signed(next[i]);
    r.sun.dataset.value = next[i];
    r.each.textContent = next[i] > .5 ? "$" + (t.cost / next[i]).toPrecision(2).replace(/e.*/, "") : "–";
    if (next[i] > .5 && t.cost / next[i] >= 100) r.each.textContent = dollars(Number((t.cost / next[i]).toPrecision(2)));
    if (here) {
      const other = gone.slice();
      other[i] = !other[i];
      const more = heatOf(other);
      r.heat.textContent = heatFigure(more.heat - here.heat, true);
      r.heat.dataset.value = more.heat - here.heat;
      r.money.textContent = signedDollars(more.dollars - here.dollars);
      r.money.dataset.value = more.dollars - here.dollars;
    }
    crowns[i].crown.setAttribute("fill", gone[i] || sunShown() ? "none" : "rgba(60, 70, 60, .13)");
    crowns[i].crown.setAttribute("stroke", gone[i] ? red : ink);
    crowns[i].crown.setAttribute("stroke-width", thin * (gone[i] ? 1.5 : 1.8));
    crowns[i].crown.setAttribute("stroke-dasharray", gone[i] ? [letter * .35, letter * .25] : "none");
    crowns[i].cross.setAttribute("visibility", gone[i] ? "visible" : "hidden");
  });
  const out = lot.trees.filter((t, i) => gone[i]).map(t => t.id);
  byId("plan-words").textContent = `Plan, north up. ${lot.trees.length} crowns; ` + (out.length ? `${out.join(", ")} gone (dashed, with a cross).` : "all stand.") + (lot.plan.wires.length ? " Dotted: wires." : "");
}

const sunShown = () => document.querySelector("input[name=ground]:checked").value === "sun";

const treeRows = [];
function makeTrees() {
  lot.trees.forEach((t, i) => {
    const tr = element(byId("trees").tBodies[0], "tr", {});
    const l = element(element(tr, "td", {class: "tick"}), "label", {class: "tick"});
    const tick = element(l, "input", {type: "checkbox", id: "tree-" + i, "aria-label": t.id + " stands, " + t.words + (t.whose ? ", " + t.whose : "")});
    tick.addEventListener("change", () => { gone[i] = !tick.checked; change(); });
    const name = element(tr, "td", {class: "name"});
    element(name, "b", {}, t.id);
    element(name, "span", {class: "kind"}, t.words);
    if (t.whose) element(name, "span", {class: "whose"}, t.whose);
    const rank = element(tr, "td", {"data-head": "rank"}), sun = element(tr, "td", {"data-head": "sun, kWh"});
    element(tr, "td", {"data-head": "cost"}, dollars(t.cost) + (t.known ? "" : "*"));
    const each = element(tr, "td", {"data-head": "$ per kWh"});
    const heat = element(tr, "td", {"data-head": "heat, " + lot.heatIn}, "–"), money = element(tr, "td", {"data-head": "$ a year"}, "–");
    treeRows.push({tr, tick, rank, sun, each, heat, money});
  });
  byId("heat-head").textContent = "heat, " + lot.heatIn;
  lot.targets.forEach((t, i) => element(byId("target"), "option", {value: i}, t.name));
  byId("target").addEventListener("change", change);
  lot.sets.forEach(s => {
    const b = element(byId("sets"), "button", {type: "button", "aria-pressed": "false"}, s.name);
    b.addEventListener("click", () => { gone.fill(false); for (const i of s.gone) gone[i] = true; change(); });
  });
}

// ---- Maps ----

const classOf = (m, x) => {
  let k = 0;
  while (k < m.colours.length - 1 && x >= m.breaks[k + 1]) k++;
  return k;
};
function key(parent, m) {
  parent.textContent = "";
  m.colours.forEach((c, k) => element(parent, "span", {style: `background:${c};color:${m.inks[k]}`}, number(m.breaks[k]) + "–" + number(m.breaks[k + 1])));
  element(parent, "span", {style: "border-color:transparent"}, "kWh/m²");
}

const faces = [];
function makeMaps() {
  for (const m of lot.maps) {
    let svg, caption, layer = groundLayer;
    if (m.ground) key(byId("ground-key"), m);
    else {
      const fig = element(byId("maps"), "figure", {});
      caption = element(fig, "figcaption", {});
      let w = 1e9, e = -1e9, b = 1e9, t = -1e9;
      for (const ring of m.outline) for (const p of ring) { w = Math.min(w, p[0]); e = Math.max(e, p[0]); b = Math.min(b, p[1]); t = Math.max(t, p[1]); }
      svg = draw(fig, "svg", {role: "img", viewBox: [w - .1, -t - .1, e - w + .2, t - b + .2].map(x => x.toFixed(2)).join(" ")});
      const id = "face-" + m.name.replace(/[^a-z0-9]+/gi, "-");
      const cut = draw(draw(svg, "defs", {}), "clipPath", {id});
      draw(cut, "path", {d: m.outline.map(r => path(r, true)).join(""), "clip-rule": "evenodd"});
      layer = draw(svg, "g", {"clip-path": `url(#${id})`});
      key(element(fig, "div", {class: "key"}), m);
    }
    const squares = m.cells.map(c => ({rect: draw(layer, "rect", {x: c.at[0], y: -c.at[1] - m.high, width: m.wide * 1.004, height: m.high * 1.004})}));
    // On the plan only as many figures as can be read.
    const size = m.ground ? letter * .8 : Math.min(m.wide, m.high) * .42;
    const stride = m.ground ? Math.ceil(size * 2.2 / Math.min(m.wide, m.high)) : 1;
    m.cells.forEach((c, i) => {
      const column = Math.round((c.at[0] - m.cells[0].at[0]) / m.wide), line = Math.round((c.at[1] - m.cells[0].at[1]) / m.high);
      if (column % stride || line % stride) return;
      const x = c.at[0] + m.wide / 2, y = c.at[1] + m.high / 2;
      const inPane = m.glass.some(p => Math.min(...p.ring.map(q => q[0])) < x + size && Math.max(...p.ring.map(q => q[0])) > x - size
        && Math.min(...p.ring.map(q => q[1])) < y + size / 2 && Math.max(...p.ring.map(q => q[1])) > y - size / 2);
      if (inPane || c.area < .85 * m.wide * m.high) return;
      squares[i].text = draw(layer, "text", {x, y: -y + size * .35, "font-size": size, "text-anchor": "middle"});
    });
    const panes = [];
    if (svg) {
      draw(svg, "path", {d: m.outline.map(r => path(r, true)).join(""), fill: "none", stroke: ink, "stroke-width": .05});
      for (const p of m.glass) {
        draw(svg, "path", {d: path(p.ring, true), fill: "#fff", stroke: ink, "stroke-width": .03});
        const x = p.ring.reduce((s, q) => s + q[0], 0) / p.ring.length, y = p.ring.reduce((s, q) => s + q[1], 0) / p.ring.length;
        const size = Math.min(.26, (Math.max(...p.ring.map(q => q[0])) - Math.min(...p.ring.map(q => q[0]))) / 2.4);
        draw(svg, "text", {x, y: -y - size * .25, "font-size": size, "font-weight": "bold", "text-anchor": "middle"}, p.id);
        panes.push({p, text: draw(svg, "text", {x, y: -y + size * .95, "font-size": size, "text-anchor": "middle"})});
      }
    }
    faces.push({m, svg, caption, squares, panes});
  }
}

function showMaps(pass) {
  for (const f of faces) {
    let low = Infinity, top = 0, sum = 0;
    f.m.cells.forEach((c, i) => {
      const x = reach(c.sun, pass), k = classOf(f.m, x), s = f.squares[i];
      low = Math.min(low, x); top = Math.max(top, x); sum += x;
      s.rect.setAttribute("fill", f.m.colours[k]);
      s.rect.dataset.value = x;
      if (s.text) { s.text.textContent = number(x); s.text.setAttribute("style", "fill:" + f.m.inks[k]); }
    });
    const words = `${f.m.words}: from ${number(low)} to ${number(top)} kWh/m² (cells about ${lot.feet ? (f.m.wide / .3048).toFixed(0) + " ft" : f.m.wide.toFixed(1) + " m"} wide)`;
    for (const g of f.panes) g.text.textContent = number(reach(lot.surfaces[g.p.surface].heating, pass));
    if (f.caption) f.caption.textContent = words;
    if (f.svg) f.svg.setAttribute("aria-label", "Map of the " + words);
  }
}

// ---- The moment ----

function showMoment() {
  const day = Number(byId("day").value), hour = Number(byId("hour").value), sun = sunAt(day, hour);
  const altitude = Math.asin(sun.z) * 180 / Math.PI, azimuth = (Math.atan2(sun.x, sun.y) * 180 / Math.PI + 360) % 360;
  byId("day-words").textContent = dateWords(day);
  byId("hour-words").textContent = hourWords(hour) + " standard time";
  byId("day").setAttribute("aria-valuetext", dateWords(day));
  byId("hour").setAttribute("aria-valuetext", hourWords(hour));
  const moment = !sunShown();
  shadowLayer.textContent = "";
  shadowLayer.style.display = moment ? "" : "none";
  groundLayer.style.display = moment ? "none" : "";
  byId("ground-key").hidden = moment;
  byId("moment").hidden = !moment;
  byId("sun-words").textContent = altitude > 0
    ? `The sun stands ${altitude.toFixed(0)}° high, at azimuth ${azimuth.toFixed(0)}° from true north (${winds[Math.round(azimuth / 45) % 8]}). The darker a crown’s shadow, the less sun it lets through on this day.`
    : "The sun is down.";
  if (altitude < .6) return;
  const state = lot.dayState[day - 1];
  const hard = draw(shadowLayer, "g", {opacity: .42});
  const onGround = p => [p[0] - p[2] * sun.x / sun.z, p[1] - p[2] * sun.y / sun.z];
  for (const b of lot.plan.buildings.concat(lot.plan.fences))
    for (const ring of b.faces || []) draw(hard, "path", {d: path(ring.map(onGround), true), fill: ink, stroke: ink, "stroke-width": .02});
  lot.trees.forEach((t, i) => {
    if (gone[i]) return;
    for (const s of t.solids) {
      const stopped = 1 - lot.blockers[s.blocker].tau[state];
      if (stopped > .01) draw(shadowLayer, "path", {d: path(fallen(s, sun), true), fill: ink, "fill-opacity": (.46 * stopped).toFixed(3), "data-tree": t.id});
    }
  });
}

// ---- All together ----

function change() {
  const pass = passed(gone);
  showSums(pass);
  showMoney(pass);
  showBar(pass);
  showTrees(pass);
  showMaps(pass);
  showMoment();
  remember();
}

// The set is kept in the address, so that a link shows the same trees gone.
function remember() {
  const out = lot.trees.filter((t, i) => gone[i]).map(t => encodeURIComponent(t.id));
  try { history.replaceState(null, "", out.length ? "#gone=" + out.join(",") : location.pathname + location.search); } catch (e) { /* some browsers forbid it for files */ }
}
function recall() {
  const found = /^#gone=(.*)$/.exec(location.hash);
  if (!found) return;
  const ids = found[1].split(",").map(s => { try { return decodeURIComponent(s); } catch (e) { return s; } });
  lot.trees.forEach((t, i) => { gone[i] = ids.includes(t.id); });
}

drawFixed();
drawCrowns();
makeTrees();
makeMaps();
recall();
for (const id of ["day", "hour"]) byId(id).addEventListener("input", showMoment);
document.querySelectorAll("input[name=ground]").forEach(r => r.addEventListener("change", change));
document.querySelectorAll("button[data-day]").forEach(b => b.addEventListener("click", () => { byId("day").value = b.dataset.day; showMoment(); }));
if (lot.sun.latitude < 0) byId("day").value = 172;
change();
