"""Codes, keys and sessions: made at random, kept only as keyed hashes."""

import hashlib
import hmac
import secrets

__all__ = ["desk_key", "keyed", "new_code", "new_session", "page_token", "plain_code"]

LETTERS = "23456789BCDFGHJKMNPQRTVWXZ"
"""No vowels, so no words; nothing that is taken for something else when it is read out."""

LENGTH = 8


def new_code() -> str:
    """Return a sign-in code, in two groups of four."""
    code = "".join(secrets.choice(LETTERS) for _ in range(LENGTH))
    return f"{code[:4]}-{code[4:]}"


def plain_code(typed: str) -> str:
    """Return a code as it is compared, however it was typed.

    >>> plain_code(" k7qm 4txr ")
    'K7QM4TXR'
    """
    return "".join(sign for sign in typed.upper() if sign.isalnum())[:40]


def new_session() -> str:
    """Return a name for a session that cannot be guessed."""
    return secrets.token_urlsafe(32)


def keyed(secret: str, purpose: str, text: str) -> str:
    """Return the keyed hash of a text, in hexadecimal; each purpose has hashes of its own."""
    return hmac.new(secret.encode(), f"{purpose}\0{text}".encode(), hashlib.sha256).hexdigest()


def page_token(secret: str, session: str) -> str:
    """Return what a page has to send with each change, so that no other site can send one."""
    return keyed(secret, "page", session)[:32]


def desk_key(secret: str) -> str:
    """Return the invigilator's key: the same for every server on one database."""
    digits = int(keyed(secret, "desk", "key"), 16)
    key = "".join(LETTERS[digits // len(LETTERS) ** place % len(LETTERS)] for place in range(12))
    return "-".join([key[:4], key[4:8], key[8:]])
