/*
 * A loading worked out: weights, moments, and how it stands to each limit.
 *
 * This is liftout.physics.planned_loading again, function by function and in the same order of operations. All amounts are
 * in kg, m, m³ and kg·m. The page recomputes loadings that came with it before it lets anybody plan; see verified().
 */
const plannerLoading = (function () {
  "use strict";

  const RAMP = "ramp", TAKEOFF = "take-off", BURN = "burn", LANDING = "landing", NO_FUEL = "no fuel";
  const SAME = 1e-9; // share of its scale by which a number may differ from the engine's

  const sum = (values) => values.reduce((total, value) => total + value, 0);

  /** Weights and moments of a loading, and its checks. A loading has state, limits, stations, fuel, taxi and trip. */
  function outcome(plan, loading) {
    const state = plan.states[loading.state], limits = plan.limits[loading.limits];
    const loads = loading.stations.map(sum);
    let dry = point(NO_FUEL, state.weight_kg, state.moment_kgm);
    plan.stations.forEach((station, index) => {
      dry = point(NO_FUEL, dry.weight + loads[index], dry.moment + loads[index] * station.arm_m);
    });
    const atTakeoff = burnt(plan, loading.fuel, loading.taxi);
    const atLanding = burnt(plan, atTakeoff, loading.trip);
    const points = [fuelled(plan, dry, RAMP, loading.fuel), fuelled(plan, dry, TAKEOFF, atTakeoff), fuelled(plan, dry, LANDING, atLanding), dry];
    const paths = orders(plan, atTakeoff, atLanding).map((order) => path(plan, dry, atTakeoff, atLanding, order));
    const checks = [...weights(plan, limits, points), ...stations(plan, state, limits, loading, loads), ...fuel(plan, loading, atLanding)];
    for (const [when, lines] of [[TAKEOFF, [[points[1]]]], [BURN, paths], [LANDING, [[points[2]]]], [NO_FUEL, [[dry]]]]) {
      checks.push(nearest(plan, "forward", when, limits.forward, lines), nearest(plan, "aft", when, limits.aft, lines));
    }
    return { points, checks, paths, atTakeoff, atLanding };
  }

  const point = (name, weight, moment) => ({ name, weight, moment });

  /** What is left in each tank; what the tanks do not hold is owed by the last of them. */
  function burnt(plan, contents, amounts) {
    if (!plan.order.length) return contents.map((volume, index) => volume - amounts[index]);
    const left = contents.slice();
    let owed = amounts[0];
    for (const index of plan.order) {
      const taken = Math.min(Math.max(left[index], 0), owed);
      left[index] -= taken;
      owed -= taken;
    }
    left[plan.order[plan.order.length - 1]] -= owed;
    return left;
  }

  /** Moment of what is in a tank: straight between the points of the tank. */
  function tankMoment(tank, weight) {
    const last = tank.points[tank.points.length - 1];
    let low = [0, 0], high = last;
    for (high of tank.points) {
      if (weight <= high[0] || high[0] === last[0]) break;
      low = high;
    }
    return low[1] + (high[1] - low[1]) * (weight - low[0]) / (high[0] - low[0]);
  }

  function fuelled(plan, dry, name, contents) {
    let { weight, moment } = dry;
    plan.tanks.forEach((tank, index) => {
      const mass = contents[index] * tank.density_kg_m3;
      weight += mass;
      moment += tankMoment(tank, mass);
    });
    return point(name, weight, moment);
  }

  // --- what is held against what ---------------------------------------------------------------------------------

  function weights(plan, limits, points) {
    return limits.weights.map(([name, most]) => {
      const { weight } = points.find((one) => one.name === name);
      return atMost(plan, "weight", name, weight, most, Math.max(weight, most || 0));
    });
  }

  function stations(plan, state, limits, loading, loads) {
    const checks = plan.groups.map((group, index) => {
      const load = sum(group.stations.map((member) => loads[member])), room = state.room_kg[index];
      return atMost(plan, "group", group.name, load, room, Math.max(load, Math.abs(room || 0)));
    });
    plan.stations.forEach((station, index) => {
      if (station.pilot) {
        const pilot = loading.stations[index][0];
        const check = atLeast(plan, "pilot", station.name, pilot, station.least_kg, station.least_kg);
        checks.push(pilot > 0 ? check : { ...check, verdict: "beyond" });
      }
      if (station.places) {
        const seated = loading.stations[index].filter((person) => person > 0).length;
        checks.push(atMost(plan, "seats", station.name, seated, state.seats[index], 1));
      }
      if (limits.empty.includes(index) || state.absent.includes(index)) checks.push(atMost(plan, "empty", station.name, loads[index], 0, 1));
      if (station.instead_of.length) {
        const beside = loads[index] > 0 ? sum(station.instead_of.map((other) => loads[other])) : 0;
        checks.push(atMost(plan, "instead", station.name, beside, 0, 1));
      }
    });
    return checks;
  }

  function fuel(plan, loading, atLanding) {
    const checks = plan.tanks.map((tank, index) => atMost(plan, "tank", tank.name, loading.fuel[index], tank.usable_m3, tank.usable_m3));
    plan.tanks.forEach((tank, index) => checks.push(atLeast(plan, "left", tank.name, atLanding[index], 0, tank.usable_m3)));
    if (plan.order.length > 1) {
      let short = 0;
      plan.order.forEach((index, place) => {
        if (loading.fuel[index] > 0) {
          for (const other of plan.order.slice(place + 1)) short += Math.max(0, plan.tanks[other].usable_m3 - loading.fuel[other]);
        }
      });
      checks.push(atMost(plan, "order", "", short, 0, sum(plan.tanks.map((tank) => tank.usable_m3))));
    }
    return checks;
  }

  function atMost(plan, kind, of, value, limit, scale) {
    if (limit === null) return { kind, of, value, limit: null, inside: null, weight: null, verdict: "not given" };
    return { kind, of, value, limit, inside: limit - value, weight: null, verdict: verdict(plan, limit - value, scale) };
  }

  function atLeast(plan, kind, of, value, limit, scale) {
    return { kind, of, value, limit, inside: value - limit, weight: null, verdict: verdict(plan, value - limit, scale) };
  }

  const verdict = (plan, inside, scale) => (inside >= -plan.at_limit * scale ? "within" : "beyond");

  // --- the centre of gravity along the burn ----------------------------------------------------------------------

  /** Orders in which tanks may be emptied; one where it is published. */
  function orders(plan, before, after) {
    if (plan.order.length) return [plan.order];
    return permutations(plan.tanks.map((_, index) => index).filter((index) => before[index] !== after[index]));
  }

  function permutations(members) {
    if (!members.length) return [[]];
    return members.flatMap((first, place) => {
      const others = [...members.slice(0, place), ...members.slice(place + 1)];
      return permutations(others).map((rest) => [first, ...rest]);
    });
  }

  /** Weight and moment from take-off to landing: a point wherever a tank is done or passes a corner of its own. */
  function path(plan, dry, before, after, order) {
    const contents = before.slice(), points = [fuelled(plan, dry, BURN, contents)];
    for (const index of order) {
      const tank = plan.tanks[index], first = contents[index], last = after[index];
      const corners = tank.points.map((corner) => corner[0] / tank.density_kg_m3).reverse();
      for (const volume of [...corners.filter((corner) => last < corner && corner < first), last]) {
        contents[index] = volume;
        points.push(fuelled(plan, dry, BURN, contents));
      }
    }
    return points;
  }

  /** Where the centre of gravity on any path lies least far inside a limit, or farthest outside. */
  function nearest(plan, kind, when, limit, paths) {
    let least = null;
    for (const line of paths) {
      const pieces = line.length > 1 ? line.slice(1).map((end, index) => [line[index], end]) : [[line[0], line[0]]];
      for (const [start, end] of pieces) {
        for (const weight of turnings(limit, start, end)) {
          const value = between(start, end, weight) / weight, at = limitArm(limit, weight, plan.at_limit);
          if (at === null) return { kind, of: when, value, limit: null, inside: null, weight, verdict: "no limit" };
          const inside = kind === "forward" ? value - at : at - value;
          if (least === null || inside < least.inside) {
            least = { kind, of: when, value, limit: at, inside, weight, verdict: verdict(plan, inside, plan.span_m) };
          }
        }
      }
    }
    return least;
  }

  /** Weights between two points of a path at which the distance to a limit may be least. */
  function turnings(limit, start, end) {
    const found = [start.weight];
    if (start.weight === end.weight) return found;
    found.push(end.weight);
    const low = Math.min(start.weight, end.weight), high = Math.max(start.weight, end.weight);
    for (const [weight] of limit.points) if (low < weight && weight < high) found.push(weight);
    if (limit.in_moment) return found; // straight in moment: the distance turns nowhere
    const arm = (end.moment - start.moment) / (end.weight - start.weight), lever = start.moment - arm * start.weight;
    limit.points.slice(1).forEach(([highWeight, highArm], index) => {
      const [lowWeight, lowArm] = limit.points[index], slope = (highArm - lowArm) / (highWeight - lowWeight);
      if (slope !== 0 && -lever / slope > 0) {
        const turning = Math.sqrt(-lever / slope);
        if (low < turning && turning < high && lowWeight < turning && turning < highWeight) found.push(turning);
      }
    });
    return found;
  }

  function between(start, end, weight) {
    if (weight === start.weight) return start.moment;
    if (weight === end.weight) return end.moment;
    return start.moment + (end.moment - start.moment) * (weight - start.weight) / (end.weight - start.weight);
  }

  /** Arm of a limit at a weight: straight between its points, constant below the first; null above the last. */
  function limitArm(limit, weight, share) {
    const points = limit.points, last = points[points.length - 1][0];
    const at = weight > last && weight - last <= share * last ? last : weight;
    if (at > last) return null;
    if (at <= points[0][0]) return limit.in_moment ? points[0][1] / points[0][0] : points[0][1];
    const upper = points.findIndex(([corner]) => at <= corner), [low, lowValue] = points[upper - 1], [high, highValue] = points[upper];
    const value = lowValue + (highValue - lowValue) * (at - low) / (high - low);
    return limit.in_moment ? value / at : value;
  }

  // --- the same as the engine? -----------------------------------------------------------------------------------

  /** A loading as it comes with the page. */
  function unpacked([state, limits, stationsLoaded, contents, taxi, trip]) {
    return { state, limits, stations: stationsLoaded, fuel: contents, taxi, trip };
  }

  /** What of a worked loading is compared: points as [weight, moment], checks as lists. */
  function packed(found) {
    return {
      points: found.points.map((one) => [one.weight, one.moment]),
      checks: found.checks.map((one) => [one.kind, one.of, one.value, one.limit, one.inside, one.weight, one.verdict]),
    };
  }

  function near(one, other, scale) {
    if (typeof one !== "number" || typeof other !== "number") return one === other;
    return Math.abs(one - other) <= SAME * Math.max(Math.abs(one), Math.abs(other), scale);
  }

  /** The first thing in which an outcome differs from what the engine found; empty where nothing does. */
  function difference(plan, ours, engine) {
    if (ours.points.length !== engine.points.length || ours.checks.length !== engine.checks.length) return "number of results";
    for (let index = 0; index < ours.points.length; index += 1) {
      const [weight, moment] = ours.points[index], [itsWeight, itsMoment] = engine.points[index];
      if (!near(weight, itsWeight, 0) || !near(moment, itsMoment, itsWeight * plan.span_m)) return `point ${index + 1}`;
    }
    for (let index = 0; index < ours.checks.length; index += 1) {
      const [kind, of, value, limit, inside, weight, word] = ours.checks[index], its = engine.checks[index];
      const scale = kind === "forward" || kind === "aft" ? plan.span_m : Math.max(Math.abs(its[2]), Math.abs(its[3] || 0));
      const same = kind === its[0] && of === its[1] && word === its[6] && near(weight, its[5], 0);
      if (!same || !near(value, its[2], scale) || !near(limit, its[3], scale) || !near(inside, its[4], scale)) return `${its[0]} ${its[1]}`.trim();
    }
    return "";
  }

  /** Work out every loading that came with the page; the first difference in words, empty where there is none. */
  function verified(plan, loadings) {
    if (!loadings.length) return "no loading of the engine came with this page";
    for (let index = 0; index < loadings.length; index += 1) {
      const found = difference(plan, packed(outcome(plan, unpacked(loadings[index].loading))), loadings[index]);
      if (found) return `loading ${index + 1} of ${loadings.length}, ${found}`;
    }
    return "";
  }

  return { outcome, unpacked, packed, difference, verified, limitArm, RAMP, TAKEOFF, BURN, LANDING, NO_FUEL };
})();
