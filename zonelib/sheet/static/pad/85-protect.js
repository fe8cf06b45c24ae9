/** A given route: depth and covering of each leg, and the RCD. The points stay where they are. */
TOOLS.protect = (() => {
  const clean = (task, raw) => {
    const legs = task.given.points.slice(1);
    const depth = legs.map((_, i) => (isNumber(raw?.depth?.[i]) ? raw.depth[i] : givenDepth(task)));
    const protection = legs.map((_, i) => raw?.protection?.[i] ?? givenProtection(task));
    return { depth, protection, rcd: cleanRcd(raw?.rcd === undefined ? task.given.rcd : raw.rcd) };
  };

  /** The state as the route tool knows it: with the given points in the answer. */
  const onPoints = (state) => ({ ...state, answer: { ...state.answer, points: state.task.given.points } });

  /** What only looks at the route: the answer stays as it is. */
  const looking = (type) => (state, action) => ({ ...ROUTE[type](onPoints(state), action), answer: state.answer });
  const looks = Object.fromEntries(["hover", "leave", "enter", "nudge", "step", "seek"].map((type) => [type, looking(type)]));

  const given = (state) => say(state, "The route is fixed by this exercise. Choose for its legs below.");
  const actions = { ...looks, setLeg, setRcd: ROUTE.setRcd, tap: given, act: given, remove: given, grab: (state) => state, drop: (state) => state, cancel: (state) => state };

  /** A part of the route tool, shown the given points. */
  const pointed = (make) => (store) => {
    const part = make(store);
    return { ...part, update: (state, before) => part.update(onPoints(state), before && onPoints(before)) };
  };

  const rcdWords = (rcd) => (rcd ? `RCD: ${rcd.ma} mA, ${RCD_PLACES[rcd.at].toLowerCase()}${rcd.delayed ? ", time-delayed" : ""}.` : "No RCD.");
  const covering = (task, id) => task.protections?.find((p) => p.id === id)?.words ?? id;
  const legWords = (task, answer) => answer.depth.map((deep, i) => `Leg ${i + 1}: ${mm(deep)} deep, ${covering(task, answer.protection[i])}.`).join(" ");

  const words = {
    describe: (task, answer, face) => `${describeAnswer(task, { points: task.given.points }, face)} ${legWords(task, answer)} ${rcdWords(answer.rcd)}`,
    count: (task, answer) => `${legWords(task, answer)} ${rcdWords(answer.rcd)}`,
    given: "This route is given. Choose for each leg below.",
    help: "The route is given. Page Up and Page Down go from point to point. Arrow keys move the cross. Tab leads to the choices below.",
    readout: (state) => readout(onPoints(state)),
  };

  return {
    clean, actions, words, drawable: () => false,
    hit: () => ({ kind: "view" }),
    draw: (state, scale) => drawRoute(onPoints(state), scale, state),
    parts: () => [pointed(legsPart), rcdPart],
    keys: { a: { type: "seek" } },
    keyHelp: [["Page Up, Page Down", "previous or next point"], ["A", "go to the next accessory"]],
  };
})();
