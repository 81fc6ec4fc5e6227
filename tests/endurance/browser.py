"""Sheets of hostile jobs in headless Chromium: no script runs, and no request leaves.

Each sheet is opened from its file, with a proxy that counts every request. Beside the sheets a page
is opened whose script does run and whose picture is asked for: what finds nothing there could find
nothing in a sheet either.
"""

from __future__ import annotations

import dataclasses
import itertools
import shutil
import socketserver
import subprocess
import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from coilwright.job.answers import ANSWERS, Form
from coilwright.job.answers.job import JobKey
from coilwright.job.job import Asked, Job
from coilwright.job.roof import Plane
from coilwright.plan import plan
from coilwright.sheets import KINDS, render
from tests.cases import REPLIES, small_gable
from tests.endurance.result import Result

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
RAN = "a script ran here"
_AWAY = "http://away.invalid/"
_SCRIPT = f"document.documentElement.setAttribute('data-ran','{RAN}')"
HOSTILE = (
    f"<script>{_SCRIPT}</script>",
    f"<img src=x onerror=\"{_SCRIPT}\">",
    f"<img src={_AWAY}i.png>",
    f"\"><svg onload=\"{_SCRIPT}\">",
    f"' onmouseover='{_SCRIPT}' autofocus onfocus='{_SCRIPT}' x='",
    f"</style><script>{_SCRIPT}</script>",
    f"</title><script>{_SCRIPT}</script>",
    f"</svg><script>{_SCRIPT}</script>",
    f"<svg><foreignObject><iframe src={_AWAY}f srcdoc='<script>{_SCRIPT}</script>'>",
    f"<svg><script>{_SCRIPT}</script></svg>",
    f"javascript:{_SCRIPT}",
    f"<a href=javascript:{_SCRIPT}>x</a><meta http-equiv=refresh content='0;url={_AWAY}m'>",
    f"<link rel=stylesheet href={_AWAY}s.css><base href={_AWAY}>",
    f"}} @import url({_AWAY}c.css); body{{background:url({_AWAY}b.png)}}",
    f"&lt;script&gt;{_SCRIPT}&lt;/script&gt;",
    f"&#60;script&#62;{_SCRIPT}&#60;/script&#62;",
    f"--><script>{_SCRIPT}</script><!--",
    f"]]><script>{_SCRIPT}</script>",
    f"<details open ontoggle=\"{_SCRIPT}\">",
    f"<video><source onerror=\"{_SCRIPT}\" src=x></video>",
    f"<object data={_AWAY}o><embed src={_AWAY}e>",
    f"\u202e<script>{_SCRIPT}</script>\u2066",
    f"<scr\x00ipt>{_SCRIPT}</scr\x00ipt>",
    f"＜script＞{_SCRIPT}＜/script＞",
)
"""What is written in every text of a job, one at a time."""


class _Proxy(socketserver.ThreadingTCPServer):
    """Takes every request of the browser, answers none, and counts them."""

    daemon_threads = True

    def __init__(self) -> None:
        self.asked: list[str] = []
        super().__init__(("127.0.0.1", 0), _Asked)


class _Asked(socketserver.StreamRequestHandler):
    def handle(self) -> None:
        line = self.rfile.readline(4096).decode("latin-1").strip()
        assert isinstance(self.server, _Proxy)
        # The browser asks its maker on its own account as well.
        if "away.invalid" in line:
            self.server.asked.append(line)
        self.wfile.write(b"HTTP/1.1 404 Not Found\r\nContent-Length: 0\r\n\r\n")


def _deep(model: Any, text: str) -> Any:
    """A model with every empty text of its own, and of those in it, made hostile."""
    changed: dict[str, Any] = {}
    for field in dataclasses.fields(model):
        value = getattr(model, field.name)
        if dataclasses.is_dataclass(value) and not isinstance(value, type):
            changed[field.name] = _deep(value, text)
        elif value == "" and field.type in ("str", "_Line"):
            changed[field.name] = text
    return dataclasses.replace(model, **changed)


def hostile_job(text: str) -> Job:
    """A job that can be planned, and whose every text is this one."""
    job = small_gable()
    for answer in ANSWERS.values():
        if answer.form is Form.TEXT:
            job = answer.put(job, text[:200])
    planes = tuple(dataclasses.replace(plane, name=text) for plane in (
        *job.roof.planes, Plane(eave=90.0, slope_length=80.0)))
    questions = {key: Asked(text=text, settled=True, waived=text) for key in REPLIES}
    job = dataclasses.replace(
        job, about=text, questions=questions, roof=dataclasses.replace(job.roof, planes=planes),
        order=_deep(job.order, text), machine=dataclasses.replace(job.machine, name=text,
                                                                  about=text),
    )
    assert job.title == text[:200] or not ANSWERS[JobKey.NAME].value(job)
    return job


def _sheets(folder: Path) -> Iterator[Path]:
    for number, text in enumerate(HOSTILE):
        planned = plan(hostile_job(text))
        for kind in KINDS:
            path = folder / f"{number}-{kind}.html"
            path.write_text(render(kind, planned, "html"), "utf-8")
            yield path


def _opened(path: Path, folder: Path, port: int) -> str:
    """What became of a page once it was open."""
    assert CHROMIUM is not None
    return subprocess.run(
        [CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu", "--no-first-run",
         "--disable-background-networking", "--disable-component-update", "--disable-sync",
         f"--user-data-dir={folder}", f"--proxy-server=127.0.0.1:{port}",
         "--proxy-bypass-list=<-loopback>", "--virtual-time-budget=2000", "--timeout=60000",
         "--dump-dom",
         path.as_uri()],
        capture_output=True, text=True, errors="replace", check=False,
    ).stdout


def hostile_sheets(folder: Path, count: int = 0, _seed: int = 0) -> Result:
    """Every sheet of a job for each hostile text in the browser. count: at most so many; 0: all."""
    result = Result("sheets of hostile jobs in Chromium")
    if CHROMIUM is None:
        result.note("not tried, for Chromium is not installed")
        return result
    with _Proxy() as proxy:
        threading.Thread(target=proxy.serve_forever, daemon=True).start()
        port = proxy.server_address[1]
        caught = folder / "caught.html"
        caught.write_text(f"<html><body>{HOSTILE[0]}{HOSTILE[2]}</body></html>")
        seen = _opened(caught, folder / "browser", port)
        if RAN not in seen.partition(">")[0] or not proxy.asked:
            result.faults.append("a page with a script and a picture was not caught")
        proxy.asked.clear()
        for path in itertools.islice(_sheets(folder), count or None):
            seen = _opened(path, folder / "browser", port)
            result.made += 1
            if "<body" not in seen:
                result.faults.append(f"{path.name}: it was not opened")
            if "data-ran" in seen[:seen.find("<head")]:
                result.faults.append(f"{path.name}: a script ran")
            if proxy.asked:
                result.faults.append(f"{path.name}: asked for {proxy.asked}")
                proxy.asked.clear()
        proxy.shutdown()
    return result
