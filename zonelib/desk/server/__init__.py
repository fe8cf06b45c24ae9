"""The exercise server: practice, homework and timed quizzes on any device with a browser.

All state lies in one database, so several processes can share a class. Most modules are plain functions on a
connection to it:

- what is kept: `tables`, `store`, `place`; asked for often: `asking`, and of many seats at once: `held`
- a sitting is made: `candidates`, `choosing`, `making`, `codes`, `slips`, `practice`
- a seat: `seats`, `moving`, `tries`, `state`, `sitting`; its answers: `answers`, `together`, `records`
- the room: `running`, `acting`, `watching`, `living`, and the log of all that is done: `events`
- what is given out: `view` before it is marked, `results` and `feedback` after, `handing` to the tutor
- `starting` puts a server together, with its `clock`; `refusal` is what it says instead of doing something

`web` puts them behind addresses, and `static` holds the pages.
"""
