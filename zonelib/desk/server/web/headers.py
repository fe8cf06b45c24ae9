"""What browsers are told they may do with our pages."""

import hashlib
from base64 import b64encode
from importlib import resources

from zonelib.draw.svg import stylesheet

__all__ = ["headers"]


def headers() -> dict[str, str]:
    """Return the headers of every answer: scripts and styles from here alone, and nothing framed."""
    allowed = " ".join(map(_code, (stylesheet(), _report_style())))
    policy = [
        "default-src 'none'",
        "script-src 'self'",
        f"style-src 'self' {allowed}",
        "img-src 'self' data:",
        "connect-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    ]
    return {
        "Content-Security-Policy": "; ".join(policy),
        "X-Content-Type-Options": "nosniff",
        "X-Frame-Options": "DENY",
        "Referrer-Policy": "no-referrer",
        "Cross-Origin-Opener-Policy": "same-origin",
        "Cross-Origin-Resource-Policy": "same-origin",
        "Permissions-Policy": "camera=(), geolocation=(), microphone=()",
        "Server": "zonelib",
    }


def _code(style: str) -> str:
    """Return the code under which a style of our own drawings is let in, though it stands in the page."""
    return f"'sha256-{b64encode(hashlib.sha256(style.encode()).digest()).decode()}'"


def _report_style() -> str:
    return resources.files("zonelib.exercise").joinpath("report.css").read_text(encoding="utf-8")
