/**
 * The pad: answer an exercise by drawing on its picture, by keys, or by numbers in a table.
 *
 * The files of this folder are joined in the order of their names into one module (`zonelib/sheet/code.py`),
 * since no import resolves where a notebook loads it from. So they share one scope: nothing is imported, and what a
 * line needs while the module loads stands in a file before it. The pad talks to its host only through the
 * model interface (get, set, on, off, save_changes, send), so the same text serves a notebook, a test page and a server.
 *
 * 00 types, 1x words and geometry, 2x snapping, 3x the reducer and keys, 4x elements and drawing, 5x the pointer,
 * 6x parts of the page that every exercise has, 7x and 8x tools, 90 the widget.
 *
 * A tool answers one kind of exercise. Its file ends in `TOOLS.<kind> = {…}` as typed below, and keeps its own names
 * to itself: `TOOLS.zones = (() => { …; return {…}; })();`. Only `71-route.js` and its like share theirs.
 */

/** @typedef {[number, number]} Place  x from the left end of the front face, y above floor (mm) */
/** @typedef {{x: number, y: number, w: number, h: number}} Box  part of the picture (its own units: mm) */
/** @typedef {object} Answer  what the exercise's kind calls an answer; replaced, never changed in place */
/** @typedef {{id: string, kind: string, face: string, x: number, y: number, width: number, height: number}} Accessory */
/** @typedef {{axis: "x"|"y", value: number, source: string, words: string}} Line  something to snap to */
/**
 * One thing a check found, drawn under its number: along a line, over areas, or at a place.
 * @typedef {{n: number, face: string, text: string, points?: Place[], rings?: Place[][], at?: Place, style?: string}} Stretch
 */
/** @typedef {{stretches: Stretch[], passed: boolean, summary: string}} Result */
/**
 * @typedef {object} Task
 * @property {string} kind  name of a tool in TOOLS
 * @property {string} title
 * @property {{id: string, length: number, top: Place[], thickness?: number}} [wall]  what is drawn on; none: there is no drawing
 * @property {Accessory[]} [accessories]
 * @property {{front?: string, rear?: string}} [pictures]  trusted SVG text
 * @property {{front?: string, rear?: string}} [alt]
 * @property {{id: string, start: number, length: number}[]} [walls]  of a room: they lie side by side along `wall`, which then goes round
 * @property {number} [snap]  grid (mm)
 * What else it holds is between a tool and its Python side (`zonelib/sheet/kinds`).
 */
/**
 * @typedef {object} State
 * @property {Task} task
 * @property {Answer} answer  what is on show; equals the last commit unless something is held
 * @property {Answer[]} past
 * @property {Answer[]} future
 * @property {number} commits  rises by one for each confirmed change
 * @property {string} mode  "view" moves the picture; the others are the tool's; in "adjust" nothing new is drawn
 * @property {boolean} lock  level and upright only
 * @property {"front"|"rear"} face
 * @property {Place|null} cursor
 * @property {{at: Place, lines: Line[]}|null} target  where a point would land
 * @property {boolean} keys  the cursor was last moved by keys
 * @property {*} selected  what is chosen; null for nothing
 * @property {{before: Answer}|null} held  what is in hand, and the answer before; the rest is the tool's
 * @property {Result|null} result
 * @property {Answer|null} resultFor  the answer that the result speaks of
 * @property {number} focus
 * @property {Box} base  the whole picture
 * @property {Box} view  the part on show
 * @property {{index: number, view: Box}|null} stood  the wall of a room that was last gone to, and what was then on show
 * @property {number} shape  how many times as wide as high the drawing is on the screen
 * @property {{text: string, lazy: boolean}} said
 */
/** @typedef {(state: State, action: object) => State} Act */
/** @typedef {{words: string, icon?: string, short?: string, bare?: boolean, show?: Function, enabled?: Function, pressed?: Function, action: Function}} Button */
/**
 * A tool: how one kind of exercise is answered.
 *
 * Actions every drawing tool has, since pointer and keys send them: `hover {at, reach, fine}` the pointer moves,
 * `leave` it is gone, `tap {hit, at, reach, fine, again}` a click or tap, `grab {hit, at, …}` a drag begins,
 * `drop` it ends, or Enter puts down, `cancel`, `enter` the drawing has focus by keys, `nudge {by}` arrow keys (mm, as seen),
 * `act` Enter or Space, `step {by}` Page Up and Page Down, `remove` Backspace. A tool without a drawing has only its own.
 * A confirmed change goes through `commit`, words through `say`; both are in `30-reducer.js`.
 *
 * @typedef {object} Tool
 * @property {(task: Task, raw: *) => Answer} clean  any value made into an answer that the pad can show
 * @property {Object<string, Act>} actions  by type; the common ones (load result focus zoom fit pan face mode undo redo) are there
 * @property {(store: Store) => Part[]} parts  called once: makers of what stands below the drawing, such as the table
 * @property {ToolWords} words
 * @property {(state: State, at: Place, reach: {point: number, leg: number}) => {kind: string}} [hit]  what lies under a place; "empty" for nothing. `kind` sets the mouse's shape
 * @property {(state: State, scale: number) => SVGElement[]} [draw]  all that is drawn over the picture; scale is mm per CSS pixel
 * @property {(task: Task) => boolean} [drawable]  whether the exercise lets one draw; left out: yes
 * @property {(answer: Answer) => *} [last]  what is selected after undo, redo and load; left out: nothing
 * @property {(state: State) => Place|null} [lookedAt]  what zooming by button keeps in place; left out: the cross, or the middle
 * @property {Object<string, object>} [keys]  further keys on the drawing, each with its action
 * @property {[string, string][]} [keyHelp]  what those keys do
 * @property {{modes?: Button[], changes?: Button[]}|Function} [bar]  buttons beside those every pad has; a function gets the task
 * @property {(task: Task) => string} [firstMode]  what a click does at first; left out: "draw"
 */
/**
 * @typedef {object} ToolWords
 * @property {(task: Task, answer: Answer, face: string) => string} describe  the answer in words: read out, read aloud, and the drawing's description
 * @property {(task: Task, answer: Answer) => string} count  "The route has 3 points."
 * @property {string} [thing]  what is drawn on, in a word; left out: wall
 * @property {string} [help]  how the keys work it, read out when the drawing takes focus
 * @property {(state: State) => string} [readout]  while one moves
 * @property {(state: State) => string} [hint]  what to do next, where nothing is read out
 * @property {Object<string, string>} [modes]  said when a mode is chosen
 * @property {string} [given]  said where nothing can be drawn
 */
