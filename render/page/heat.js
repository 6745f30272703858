"use strict";

// ---- Heat and money of any set, by the study's own method ----
// heatModel takes what heat.go embeds and gives a function from the trees gone
// to kWh and dollars a year.

function bytes(base64) {
  const text = atob(base64 || ""), out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) out[i] = text.charCodeAt(i);
  return out.buffer;
}
const words16 = base64 => new Uint16Array(bytes(base64));

const monthDays = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

function heatModel(h, lot) {
  const list = words16(h.sets), setAt = [];
  for (let i = 0; i < list.length; i += 1 + list[i]) setAt.push(i);
  const states = lot.blockers.length ? lot.blockers[0].tau.length : 1;
  const air = Float64Array.from(new Float32Array(bytes(h.air))), hours = air.length;
  const monthOf = new Uint8Array(hours), stateOf = new Uint16Array(hours);
  for (let m = 0, i = 0; m < 12; m++) for (let k = 0; k < 24 * monthDays[m]; k++, i++) monthOf[i] = m;
  for (let i = 0; i < hours; i++) stateOf[i] = lot.dayState[Math.floor(i / 24)];

  const figures = (s, list) => s.fine ? new Float32Array(bytes(list)) : words16(list);
  const open = s => ({
    unit: s.unit, hours: words16(s.hours), ground: figures(s, s.ground), counts: words16(s.counts), set: words16(s.set), beam: figures(s, s.beam),
    skies: s.skies.map(k => ({dome: figures(s, k.dome), band: figures(s, k.band), set: words16(k.set), part: new Float32Array(bytes(k.part))})),
  });
  const gains = open(h.gains), heaters = h.heaters.map(u => ({u, intake: open(u.intake)}));

  // What each set of blockers lets through in each state of leaf.
  function through(gone) {
    const out = [];
    for (let s = 0; s < states; s++) {
      const row = new Float64Array(setAt.length);
      for (let k = 0; k < setAt.length; k++) {
        let tau = 1;
        for (let i = setAt[k] + 1, end = setAt[k] + list[setAt[k]]; i <= end; i++) {
          const b = lot.blockers[list[i]];
          if (!gone[b.tree]) tau *= b.tau[s];
        }
        row[k] = tau;
      }
      out.push(row);
    }
    return out;
  }

  // An hourly sum, Wh.
  function hourly(s, pass) {
    const out = new Float64Array(hours);
    if (!s.hours.length) return out;
    const shares = s.skies.map(k => pass.map(row => {
      let dome = 0, band = 0;
      for (let i = 0; i < k.set.length; i++) { dome += k.part[2 * i] * row[k.set[i]]; band += k.part[2 * i + 1] * row[k.set[i]]; }
      return [dome, band];
    }));
    let at = 0;
    for (let n = 0; n < s.hours.length; n++) {
      const t = s.hours[n], state = stateOf[t], row = pass[state];
      let sum = s.ground[n];
      for (const end = at + s.counts[n]; at < end; at++) sum += s.beam[at] * row[s.set[at]];
      for (let k = 0; k < s.skies.length; k++) sum += s.skies[k].dome[n] * shares[k][state][0] + s.skies[k].band[n] * shares[k][state][1];
      out[t] = sum * s.unit;
    }
    return out;
  }

  // The share of gains that saves heat: ISO 13790:2008, 12.2.1.1.
  function utilisation(gamma, a) {
    if (gamma < 0) return 1 / gamma;
    if (gamma === 0) return 1;
    if (Math.abs(gamma - 1) < 1e-9) return a / (a + 1);
    if (gamma > 1) { const x = 1 / gamma, p = Math.pow(x, a + 1); return (x - p) / (1 - p); }
    return (1 - Math.pow(gamma, a)) / (1 - Math.pow(gamma, a + 1));
  }

  // What the house needs in a year, and what sun it gets outside the season.
  function balance(gain) {
    const solar = new Float64Array(12);
    for (let i = 0; i < hours; i++) solar[monthOf[i]] += gain[i] / 1000;
    const a = 1 + h.capacity / 3600 / h.conductance / 15;
    let need = 0, summer = 0;
    for (let m = 0; m < 12; m++) {
      const n = 24 * monthDays[m], loss = Math.max(0, h.conductance * (h.setpoint - h.monthAir[m]) * n / 1000);
      if (loss === 0) { summer += solar[m]; continue; }
      const all = solar[m] + h.internal * n / 1000, gamma = all / loss;
      need += Math.max(0, loss - utilisation(gamma, a) * all);
      if (gamma > (a + 1) / a) summer += solar[m];
    }
    return {need, summer};
  }

  // The house as one lump of mass, exact within the hour, run twice so that it
  // starts as it ends. What is offered is taken up to the band above the
  // setpoint.
  function run(gain, offered, power) {
    const capacity = h.capacity / 3600, left = Math.exp(-h.conductance / capacity), spent = -Math.expm1(-h.conductance / capacity);
    let indoor = h.setpoint, need = 0, fan = 0;
    for (let pass = 0; pass < 2; pass++) {
      need = fan = 0;
      for (let i = 0; i < hours; i++) {
        let heat = gain[i] + h.internal;
        const toReach = t => h.conductance * ((t - indoor * left) / spent - air[i]);
        if (offered && offered[i] > 0) {
          const take = Math.min(offered[i], Math.max(0, toReach(h.setpoint + h.band) - heat));
          fan += power[i] * take / offered[i];
          heat += take;
        }
        const lack = toReach(h.setpoint) - heat;
        if (lack > 0) { need += lack; heat += lack; } else {
          const over = heat - toReach(h.tooWarm);
          if (over > 0) heat -= over;
        }
        const settles = air[i] + heat / h.conductance;
        indoor = settles + (indoor - settles) * left;
      }
    }
    return {need: need / 1000, fan: fan / 1000};
  }

  function airHeaters(gain, pass) {
    if (!heaters.length) return {useful: 0, fan: 0};
    const offered = new Float64Array(hours), power = new Float64Array(hours), room = h.setpoint + h.band / 2;
    for (const {u, intake} of heaters) {
      const taken = hourly(intake, pass);
      for (let i = 0; i < hours; i++) {
        const out = taken[i] / u.area - u.loss * (room - air[i]);
        if (taken[i] > 0 && out > 0 && out >= u.least) { offered[i] += out * u.area; power[i] += u.fan * u.area; }
      }
    }
    const one = run(gain, offered, power);
    return {useful: run(gain).need - one.need, fan: one.fan};
  }

  // The monthly correlation for hot water: f = 1.029Y − 0.065X − 0.245Y² +
  // 0.0018X² + 0.0215Y³.
  function hotWater(ledger) {
    if (!h.water || !h.water.load) return {useful: 0, pump: 0};
    let sum = 0;
    for (let m = 0; m < 12; m++) {
      const sun = reach(h.water.sun[m], ledger);
      let x = Math.max(0, h.water.x[m]), y = Math.max(0, h.water.yPerSun[m] * sun);
      const over = Math.max(x / 18, y / 3, 1);
      x /= over; y /= over;
      const f = Math.max(0, Math.min(1, 1.029 * y - .065 * x - .245 * y * y + .0018 * x * x + .0215 * y * y * y));
      sum += Math.min(f * h.water.load[m], sun * h.water.area);
    }
    return {useful: sum, pump: sum * h.water.pump};
  }

  const whole = gone => {
    const pass = through(gone), gain = hourly(gains, pass), b = balance(gain), a = airHeaters(gain, pass), w = hotWater(passed(gone));
    return {need: b.need, summer: b.summer, air: a.useful, water: w.useful, power: a.fan + w.pump};
  };
  const today = whole(lot.trees.map(() => false));
  return gone => {
    const now = whole(gone), windows = today.need - now.need, air = now.air - today.air, water = now.water - today.water;
    return {windows, air, water, heat: windows + air + water, summer: now.summer - today.summer, need: now.need,
      dollars: (windows + air) * h.house + water * h.waterPrice - (now.power - today.power) * h.power};
  };
}
