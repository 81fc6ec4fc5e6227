"""Serving the wizard to browsers: a process and a private data folder for each visitor.

It needs the extra `coilwright[browser]`, imported only where it serves, and is the only place that
knows it. The pages are served
on this machine alone unless an address is given. Nothing is encrypted, and a visitor's wizard runs
as whoever started this: it is for a room of people who are trusted.
"""

from __future__ import annotations

import contextlib
import os
import secrets
import shlex
import subprocess
import sys
from dataclasses import dataclass, field
from html import escape
from pathlib import Path
from typing import Any

from coilwright.values.digest import digest

_COOKIE = "coilwright_visitor"
_WHO = ".visitor"
"""File in a visitor's folder that says whose it is: a checksum of the cookie."""
_WINDOWS = 2
"""Windows that one visitor may have open at once: one that is closing, and its successor."""
_SIZES = range(20, 501)
"""Columns and rows that a window may have."""
_LARGEST_MESSAGE = 1 << 20
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; font-src 'self' "
    "data:; img-src 'self' data:; connect-src 'self' {sockets}; base-uri 'none'; "
    "form-action 'none'; frame-ancestors 'none'"
)


@dataclass
class Visitors:
    """Who has a place: a folder each, found again by a cookie; no more than `most` of them.

    folder: theirs lie in it, named by number. open: how many windows each has open now.
    """

    folder: Path
    most: int
    open: dict[Path, int] = field(default_factory=dict)

    def _taken(self) -> list[Path]:
        return [path for path in sorted(self.folder.glob("visitor-*")) if path.is_dir()]

    def _found(self, known: str) -> Path | None:
        for path in self._taken():
            with contextlib.suppress(OSError):
                if (path / _WHO).read_text("ascii") == known:
                    return path
        return None

    def has_room(self, token: str) -> bool:
        """Whether whoever shows this cookie has a place, or there is one left."""
        return len(self._taken()) < self.most or self._found(digest(token)) is not None

    def place(self, token: str) -> Path | None:
        """The folder of whoever shows this cookie; None where all places are given away."""
        known, taken = digest(token), self._taken()
        if (found := self._found(known)) is not None:
            return found
        if len(taken) >= self.most:
            return None
        number = 1 + max((int(path.name.rpartition("-")[2]) for path in taken
                          if path.name.rpartition("-")[2].isdecimal()), default=0)
        path = self.folder / f"visitor-{number:02}"
        path.mkdir(mode=0o700)
        (path / _WHO).write_text(known, "ascii")
        return path

    @contextlib.contextmanager
    def window(self, place: Path) -> Any:
        """Count a window while it is open; gives whether there is room for it."""
        count = self.open.get(place, 0)
        if count >= _WINDOWS:
            yield False
            return
        self.open[place] = count + 1
        try:
            yield True
        finally:
            self.open[place] -= 1


class Served:
    """The pages, and the line to each visitor's process.

    A page of another site cannot talk to it: the names in `Host` and `Origin` must be its own.
    also: names beside the host's that it answers to.
    """

    def __init__(
        self, visitors: Visitors, attempts: Path, host: str, port: int, also: tuple[str, ...] = (),
    ) -> None:
        self.visitors = visitors
        self.attempts = attempts
        shown = f"[{host}]" if ":" in host else host
        self.origin = f"http://{shown}:{port}"
        self.hosts = frozenset(f"{name}:{port}" for name in (shown, *also))

    def app(self) -> Any:
        """The application that answers."""
        from aiohttp import web
        from textual_serve import server
        from textual_serve.download_manager import DownloadManager

        self.downloads = DownloadManager()
        app = web.Application()
        app.add_routes([
            web.get("/", self.index), web.get("/ws", self.socket),
            web.static("/static", Path(server.__file__).parent / "static"),
        ])
        return app

    def _refuses(self, request: Any) -> bool:
        return request.headers.get("Host", "") not in self.hosts

    async def index(self, request: Any) -> Any:
        """The page with the terminal; a place for whoever opens it, or a word that it is full."""
        from aiohttp import web

        if self._refuses(request):
            return web.Response(status=403, text="This is not the address it is served at.\n")
        token = request.cookies.get(_COOKIE, "")
        if not 20 <= len(token) <= 60:
            token = secrets.token_urlsafe(24)
        if not self.visitors.has_room(token):
            return web.Response(
                status=503, text=f"The class is full: all {self.visitors.most} places are taken. "
                "Ask the trainer for one more.\n")
        host = request.headers["Host"]
        response = web.Response(text=_page(f"ws://{host}/ws"), content_type="text/html")
        response.headers["Content-Security-Policy"] = _POLICY.format(sockets=f"ws://{host}")
        response.headers["Referrer-Policy"] = "no-referrer"
        response.headers["Cache-Control"] = "no-store"
        response.set_cookie(_COOKIE, token, httponly=True, samesite="Strict", max_age=14 * 86_400)
        return response

    async def socket(self, request: Any) -> Any:
        """The line to one visitor's process."""
        from aiohttp import web

        origin = request.headers.get("Origin", "").removeprefix("http://")
        if self._refuses(request) or origin not in self.hosts:
            return web.Response(status=403, text="Only its own page may open this line.\n")
        token = request.cookies.get(_COOKIE, "")
        place = self.visitors.place(token) if 20 <= len(token) <= 60 else None
        if place is None:
            return web.Response(status=503, text="No place in the class.\n")
        with self.visitors.window(place) as room:
            if not room:
                return web.Response(status=503, text="Too many windows of one visitor.\n")
            socket = web.WebSocketResponse(heartbeat=15, max_msg_size=_LARGEST_MESSAGE)
            await socket.prepare(request)
            await self._run(socket, place, request.query)
            return socket

    async def _run(self, socket: Any, place: Path, query: Any) -> None:
        from textual_serve.app_service import AppService

        service = AppService(
            _command(place, self.attempts), write_bytes=socket.send_bytes,
            write_str=socket.send_str, close=socket.close, download_manager=self.downloads)
        await service.start(_size(query.get("width"), 80), _size(query.get("height"), 24))
        try:
            async for message in socket:
                try:
                    kind, data = message.json()
                except (TypeError, ValueError):
                    continue
                await _pass_on(service, socket, kind, data)
        finally:
            await service.stop()


async def _pass_on(service: Any, socket: Any, kind: Any, data: Any) -> None:
    """What the page says, to the process: keys, a new size, the focus. Anything else is dropped."""
    match kind, data:
        case "stdin", str():
            await service.send_bytes(data.encode("utf-8", "replace"))
        case "resize", {"width": width, "height": height}:
            await service.set_terminal_size(_size(width, 80), _size(height, 24))
        case "ping", _:
            await socket.send_json(["pong", data])
        case "blur", _:
            await service.blur()
        case "focus", _:
            await service.focus()


def _size(value: Any, usual: int) -> int:
    """Columns or rows of a window, within reason."""
    try:
        number = int(value)
    except (TypeError, ValueError):
        return usual
    return min(max(number, _SIZES[0]), _SIZES[-1])


def _command(place: Path, attempts: Path) -> str:
    """The command of a visitor's process."""
    parts = [sys.executable, "-m", "coilwright.cli.visitor", str(place), str(attempts)]
    return subprocess.list2cmdline(parts) if os.name == "nt" else shlex.join(parts)


def _page(socket: str) -> str:
    """The page: a terminal, and a word when its line is closed. Nothing is fetched elsewhere."""
    return f"""<!DOCTYPE html>
<html lang="en"><head><meta charset="utf-8"><title>Coilwright</title>
<link rel="stylesheet" href="/static/css/xterm.css">
<script src="/static/js/textual.js"></script>
<style>
body {{ background: #111; color: #eee; margin: 0; font-family: monospace; }}
.closed-dialog {{ display: none; padding: 2em; }}
body.-closed .closed-dialog {{ display: block; position: absolute; z-index: 10;
  background: #111; width: 100%; }}
a {{ color: inherit; }}
</style></head>
<body data-pingurl="">
<div class="closed-dialog">The wizard was closed. All is saved. <a href="/">Open it again</a></div>
<div id="terminal" class="textual-terminal" data-font-size="16"
  data-session-websocket-url="{escape(socket)}"></div>
</body></html>
"""


def serve(served: Served, host: str, port: int) -> None:
    """Answer until Ctrl-C. Raises OSError where the address cannot be had."""
    from aiohttp import web

    web.run_app(served.app(), host=host, port=port, print=lambda *_: None, access_log=None)
