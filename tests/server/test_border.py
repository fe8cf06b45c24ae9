"""Who gets in: codes, one device for each seat, cookies, tokens, origins, headers."""

from base64 import b64decode, b64encode

import pytest

from tests.server.room import ROUTE, Client, Room
from zonelib.desk.server.tries import MOST, WINDOW


def test_a_code_is_taken_however_it_is_typed(room: Room) -> None:
    code = room.codes["C-001"]
    assert room.client().post("/api/sign-in", code=f" {code.lower().replace('-', ' ')} ").status == 200


def test_codes_are_kept_only_as_hashes(room: Room) -> None:
    from zonelib.desk.server.tables import seats

    with room.store.reading() as connection:
        kept = str(connection.execute(seats.select()).all())
    assert all(code not in kept and code.replace("-", "") not in kept for code in room.codes.values())


def test_too_many_codes_from_one_address_have_to_wait(room: Room) -> None:
    for _ in range(MOST):
        assert room.client().post("/api/sign-in", code="AAAA-AAAA").data["error"] == "code-unknown"
    assert room.client().post("/api/sign-in", code=room.codes["C-001"]).status == 429
    room.hands.pass_by(WINDOW + 1)
    assert room.client().post("/api/sign-in", code=room.codes["C-001"]).status == 200


def test_the_invigilators_key_cannot_be_tried_for_long_either(room: Room) -> None:
    for _ in range(MOST):
        assert room.client().post("/api/desk/sign-in", key="AAAA").data["error"] == "key-unknown"
    assert room.client().post("/api/desk/sign-in", key="AAAA").status == 429


def test_a_second_device_waits_until_the_invigilator_moves_the_seat(room: Room) -> None:
    old = room.seat()
    old.save("bedroom-drop", 1, ROUTE)
    new = room.client()
    assert new.post("/api/sign-in", code=room.codes["C-001"]).data["state"] == "waiting"
    assert new.get("/api/sitting").data["error"] == "waiting"
    assert old.save("bedroom-drop", 2, {}).status == 200
    assert room.act("move", seat="C-001", reason="the screen broke").status == 200
    new.token = new.get("/api/sitting").data["token"]
    assert new.save("bedroom-drop", 3, ROUTE).status == 200
    lost = old.save("bedroom-drop", 4, {})
    assert (lost.status, lost.data["error"]) == (401, "moved")
    assert new.get("/api/question/bedroom-drop").data["answer"] == ROUTE


def test_a_device_that_was_refused_is_told(room: Room) -> None:
    old = room.seat()
    new = room.client()
    new.post("/api/sign-in", code=room.codes["C-001"])
    assert room.act("refuse", seat="C-001").status == 200
    assert new.get("/api/sitting").data["error"] == "refused-move"
    assert old.save("bedroom-drop", 1, ROUTE).status == 200


def test_the_same_browser_signs_in_again_without_asking(room: Room) -> None:
    seat = room.seat()
    assert seat.post("/api/sign-in", code=room.codes["C-001"]).data["state"] == "in"
    assert seat.save("bedroom-drop", 1, ROUTE).status == 200


def test_who_signs_out_can_sign_in_elsewhere(room: Room) -> None:
    seat = room.seat()
    seat.post("/api/leave")
    assert room.client().post("/api/sign-in", code=room.codes["C-001"]).data["state"] == "in"


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/api/sitting"),
        ("GET", "/api/question/bedroom-drop"),
        ("GET", "/api/results"),
        ("POST", "/api/pulse"),
        ("PUT", "/api/answer/bedroom-drop"),
        ("POST", "/api/hand-in"),
        ("GET", "/api/desk"),
        ("GET", "/api/desk/autumn"),
        ("POST", "/api/desk/autumn"),
    ],
)
def test_nobody_gets_in_without_signing_in(room: Room, method: str, path: str) -> None:
    refused = room.client().ask(method, path, None if method == "GET" else {})
    assert refused.status == 401
    assert refused.data["error"] in ("not-in", "not-desk")


def test_a_candidate_is_no_invigilator(room: Room) -> None:
    assert room.seat().get("/api/desk/autumn").data["error"] == "not-desk"


def test_a_cookie_that_was_changed_is_nobodys(room: Room) -> None:
    seat, other = room.seat("C-001"), room.id_of("C-003")
    *head, value, code = seat.cookies["zonelib_seat"].strip('"').split("|")
    forged = b64decode(value.partition(":")[2]).replace(room.id_of("C-001").encode(), other.encode())
    seat.cookies["zonelib_seat"] = "|".join([*head, f"80:{b64encode(forged).decode()}", code])
    assert seat.get("/api/sitting").status == 401
    seat.cookies["zonelib_seat"] = f"{other}.guess"
    assert seat.get("/api/sitting").status == 401


def test_a_change_needs_the_pages_token(room: Room) -> None:
    seat = room.seat()
    assert seat.ask("POST", "/api/hand-in", {}, X_Zonelib_Page="-").data["error"] == "no-token"
    assert seat.ask("POST", "/api/hand-in", {}, X_Zonelib_Page="0" * 32).data["error"] == "no-token"
    assert seat.get("/api/sitting").data["pulse"]["handed_in"] is False


@pytest.mark.parametrize("origin", ["-", "null", "http" + "://elsewhere.test", "http://127.0.0.1:1"])
def test_a_change_that_another_site_asks_for_is_refused(room: Room, origin: str) -> None:
    seat = room.seat()
    assert seat.ask("POST", "/api/hand-in", {}, Origin=origin).data["error"] == "other-site"
    sign_in = room.client().ask("POST", "/api/sign-in", {"code": room.codes["C-003"]}, Origin=origin)
    assert sign_in.data["error"] == "other-site"


def test_a_form_of_another_site_cannot_pass_for_json(room: Room) -> None:
    refused = room.seat().ask("POST", "/api/hand-in", {}, Content_Type="text/plain")
    assert refused.data["error"] == "not-json"


def test_cookies_are_kept_from_scripts_and_other_sites(room: Room) -> None:
    found = room.client().post("/api/sign-in", code=room.codes["C-001"]).headers["Set-Cookie"]
    assert "HttpOnly" in found
    assert "SameSite=Strict" in found


@pytest.mark.parametrize("path", ["/", "/sit", "/desk", "/static/sit.js", "/api/sitting", "/nothing"])
def test_every_answer_says_what_a_browser_may_do(room: Room, path: str) -> None:
    headers = room.client().get(path).headers
    policy = headers["Content-Security-Policy"]
    assert "default-src 'none'; script-src 'self';" in policy
    assert "unsafe" not in policy
    assert "frame-ancestors 'none'" in policy
    assert headers["X-Content-Type-Options"] == "nosniff"


@pytest.mark.parametrize(
    "path", ["/static/../words.toml", "/static/%2e%2e/words.toml", "/words.toml", "/sit/x"]
)
def test_only_the_pages_files_are_sent(room: Room, path: str) -> None:
    assert room.client().get(path).status == 404


def test_what_is_new_is_sent_once(room: Room) -> None:
    client = room.client()
    first = client.get("/static/pad.js")
    again = client.ask("GET", "/static/pad.js", None, If_None_Match=first.headers["Etag"])
    assert (first.status, again.status, again.raw) == (200, 304, b"")


def test_the_pad_is_the_notebooks_to_the_byte(room: Room) -> None:
    from zonelib.sheet.code import pad_code

    assert room.client().get("/static/pad.js").raw == pad_code().encode()


def test_a_seat_sees_nothing_of_another(room: Room) -> None:
    one, three = room.seat("C-001"), room.seat("C-003")
    one.save("bedroom-drop", 1, ROUTE)
    assert three.get("/api/question/bedroom-drop").data["answer"] == {}


def test_the_invigilator_is_told_what_can_be_done(room: Room) -> None:
    assert room.act("dance").data["error"] == "no-act"
    assert room.act("add", minutes=5, reason=" ").data["error"] == "no-reason"
    assert room.act("add", minutes=0).data["error"] == "minutes"
    assert room.act("resume").data["words"] == "This cannot be done now: the clock is not paused."
    assert room.act("open").data["words"] == "This cannot be done now: it is open already."
    assert room.act("release").data["words"] == "This cannot be done now: the quiz is not closed yet."
    assert room.act("move", seat="C-001").data["error"] == "act-not-now"
    desk = room.desk()
    assert desk.post("/api/desk/spring", act="open", reason="x").data["error"] == "no-sitting"
    assert (
        desk.post("/api/desk/autumn", act="add", seat="none", minutes=1, reason="x").data["error"]
        == "no-seat"
    )


def test_a_forwarded_address_is_not_believed_unless_told(room: Room) -> None:
    for number in range(MOST):
        client = Client(room.port)
        client.ask("POST", "/api/sign-in", {"code": "AAAA"}, X_Forwarded_For=f"10.0.0.{number}")
    assert room.client().post("/api/sign-in", code="AAAA").status == 429
