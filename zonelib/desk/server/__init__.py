"""The exercise server: practice, homework and timed quizzes on any device with a browser.

All state lies in one database, so several processes can share a class. `tables` says what is kept, `store`
opens it, and the modules beside them are plain functions on a connection; `web` puts them behind addresses.
"""
