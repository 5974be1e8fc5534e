"""Who may ask: this computer's own pages, or a telephone that has the secret address. Nothing from elsewhere is let in."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any

from starlette.datastructures import Headers
from starlette.responses import PlainTextResponse

Scope = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[MutableMapping[str, Any]]]
Send = Callable[[MutableMapping[str, Any]], Awaitable[None]]

POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),
    (b"cache-control", b"no-store"),
    (b"cross-origin-resource-policy", b"same-origin"),
)


class Guard:
    """Checks Host, Origin and size before anything else is done, and puts the same headers on every answer.

    `hosts` are the names that the page goes by; `prefix` the secret part of the address, if there is one.
    """

    def __init__(self, app: Any, hosts: Iterable[str], most: int, prefix: str = "") -> None:
        self.app, self.hosts, self.most, self.prefix = app, frozenset(hosts), most, prefix

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        told = self._refused(scope)
        if told is not None:
            await PlainTextResponse(told[1], told[0])(scope, receive, _with_headers(send))
            return
        if self.prefix:
            path = scope["path"] if scope["path"] != self.prefix else f"{self.prefix}/"
            scope = dict(scope, path=path, root_path=self.prefix)
        await self.app(scope, _limited(receive, self.most), _with_headers(send))

    def _refused(self, scope: Scope) -> tuple[int, str] | None:
        headers = Headers(scope=scope)
        host = headers.get("host", "").rsplit(":", 1)[0].strip("[]")
        if host not in self.hosts:
            return 400, "This page does not go by that name."
        if self.prefix and not (scope["path"] == self.prefix or scope["path"].startswith(f"{self.prefix}/")):
            return 404, "There is nothing here. Use the whole address that was printed."
        if scope["method"] not in ("GET", "HEAD", "POST"):
            return 405, "Only GET and POST are understood."
        if scope["method"] == "POST":
            origin = headers.get("origin")
            if headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
                return 403, "This was sent by another site."
            if origin is not None and origin.split("//", 1)[-1] != headers.get("host"):
                return 403, "This was sent by another site."
            length = headers.get("content-length", "")
            if length.isdigit() and int(length) > self.most:
                return 413, "That is too much at once."
        return None


def _limited(receive: Receive, most: int) -> Receive:
    taken = 0

    async def counted() -> MutableMapping[str, Any]:
        nonlocal taken
        message = await receive()
        taken += len(message.get("body", b""))
        if taken > most:
            return {"type": "http.disconnect"}
        return message

    return counted


def _with_headers(send: Send) -> Send:
    async def sent(message: MutableMapping[str, Any]) -> None:
        if message["type"] == "http.response.start":
            known = {name.lower() for name, _ in message.get("headers", [])}
            message = {
                **message,
                "headers": [*message.get("headers", []), *((n, v) for n, v in _HEADERS if n not in known)],
            }
        await send(message)

    return sent
