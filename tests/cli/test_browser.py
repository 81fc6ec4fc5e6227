"""The wizard in a browser: a private folder for each visitor, places counted, its own page alone.

The page is driven in headless Chromium, over its own protocol for developers. It is left out, and
says so, where the extra `browser` or Chromium is not installed.
"""

from __future__ import annotations

import asyncio
import contextlib
import json
import shutil
import socket
import subprocess
import sys
from collections.abc import AsyncIterator, Callable
from pathlib import Path
from typing import Any

import pytest

from tests.cli.commands import Command

CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
PATIENCE = 60
"""Seconds after which what is waited for is taken as not coming."""


def test_without_the_extra_it_says_what_to_install(run: Command) -> None:
    try:
        import textual_serve  # noqa: F401
    except ImportError:
        assert "pip install 'coilwright[browser]'" in run("browser").refused()
    else:
        pytest.skip("the extra is installed")


@pytest.mark.parametrize(("arguments", "words"), [
    (("--host", "0.0.0.0"), "the one address"), (("--host", "barn"), "no address"),
    (("--port", "70000"), "is no port"), (("--visitors", "0"), "no number of visitors"),
])
def test_what_cannot_be_served_is_told(
    run: Command, arguments: tuple[str, ...], words: str
) -> None:
    assert words in run("browser", *arguments).refused()


async def until(ready: Callable[[], Any]) -> Any:
    """What is waited for, once it is there."""
    async with asyncio.timeout(PATIENCE):
        while not (found := ready()):
            await asyncio.sleep(0.05)
        return found


class Tab:
    """A page in a browser of its own: cookies are shared with no other."""

    def __init__(self, line: Any) -> None:
        self._line = line
        self._number = 0
        self._session: str | None = None

    async def call(self, method: str, **parameters: Any) -> Any:
        """Call a method of the browser, and wait for what it gives."""
        self._number += 1
        await self._line.send_json({
            "id": self._number, "method": method, "params": parameters,
            **({"sessionId": self._session} if self._session else {})})
        async for message in self._line:
            said = json.loads(message.data)
            if said.get("id") == self._number:
                assert "error" not in said, said
                return said["result"]
        raise AssertionError("the browser has gone")

    async def open(self, address: str) -> None:
        """Open a page, as somebody who was never here."""
        context = (await self.call("Target.createBrowserContext"))["browserContextId"]
        target = (await self.call("Target.createTarget", url=address, browserContextId=context,
                                  width=1000, height=700))["targetId"]
        attached = await self.call("Target.attachToTarget", targetId=target, flatten=True)
        self._session = attached["sessionId"]

    async def value(self, script: str) -> Any:
        """What a script gives in the page."""
        found = await self.call("Runtime.evaluate", expression=script, returnByValue=True)
        return found["result"].get("value")

    async def painted(self) -> None:
        """Wait until the terminal has something on it."""
        async with asyncio.timeout(PATIENCE):
            while not await self.value("document.body?.classList.contains('-first-byte') ?? false"):
                await asyncio.sleep(0.05)
        await self.value("document.querySelector('textarea').focus()")

    async def press(self, key: str) -> None:
        """One letter."""
        await self.call("Input.dispatchKeyEvent", type="keyDown", text=key, key=key)
        await self.call("Input.dispatchKeyEvent", type="keyUp", key=key)

    async def type(self, text: str) -> None:
        """Letters, one by one."""
        for letter in text:
            await self.press(letter)


def free_port() -> int:
    """A port that nobody has now."""
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        port: int = one.getsockname()[1]
        return port


@contextlib.asynccontextmanager
async def chromium(folder: Path) -> AsyncIterator[Callable[[], Any]]:
    """A browser without a window; gives what makes a tab."""
    import aiohttp

    assert CHROMIUM is not None
    with subprocess.Popen(
        [CHROMIUM, "--headless=new", "--no-sandbox", "--disable-gpu", "--no-first-run",
         "--remote-debugging-port=0", f"--user-data-dir={folder}", "about:blank"],
        stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
    ) as process:
        try:
            said = folder / "DevToolsActivePort"
            port, path = (await until(
                lambda: said.exists() and said.read_text("ascii").splitlines()[:2]))
            async with aiohttp.ClientSession() as client:
                address = f"ws://127.0.0.1:{port}{path}"
                lines = []

                async def tab() -> Tab:
                    lines.append(await client.ws_connect(address, max_msg_size=0))
                    return Tab(lines[-1])

                yield tab
                for line in lines:
                    await line.close()
        finally:
            process.terminate()
            process.wait(PATIENCE)


@contextlib.asynccontextmanager
async def served(folder: Path, visitors: int) -> AsyncIterator[str]:
    """The wizard served from a folder; gives the address."""
    address = f"http://127.0.0.1:{free_port()}"
    process = await asyncio.create_subprocess_exec(
        sys.executable, "-m", "coilwright", "browser", "--port", address.rpartition(":")[2],
        "--visitors", str(visitors), "--folder", str(folder), stdout=subprocess.PIPE)
    try:
        assert process.stdout is not None
        first = (await asyncio.wait_for(process.stdout.readline(), PATIENCE)).decode()
        assert f"Open {address}/" in first
        yield address
    finally:
        with contextlib.suppress(ProcessLookupError):
            process.terminate()
        await asyncio.wait_for(process.wait(), PATIENCE)


def jobs(folder: Path) -> list[str]:
    """What stands in the job files of a visitor."""
    return [path.read_text("utf-8") for path in folder.glob("jobs/*.job.json")]


@pytest.mark.skipif(CHROMIUM is None, reason="Chromium is not installed")
async def test_two_visitors_work_apart_and_a_third_finds_no_place(tmp_path: Path) -> None:
    aiohttp = pytest.importorskip("aiohttp", reason="the extra `browser` is not installed")
    pytest.importorskip("textual_serve", reason="the extra `browser` is not installed")
    folder = tmp_path / "class"
    async with served(folder, 2) as address, chromium(tmp_path / "browser") as new_tab:
        tabs = [await new_tab() for _ in range(3)]
        async with aiohttp.ClientSession() as client:
            # It is there once it answers; whoever only looks takes no place.
            async with asyncio.timeout(PATIENCE):
                while True:
                    with contextlib.suppress(aiohttp.ClientConnectionError):
                        page = await client.get(address)
                        break
                    await asyncio.sleep(0.05)
            assert page.status == 200
            assert page.cookies["coilwright_visitor"]["httponly"]
            assert not [*folder.glob("visitor-*")]
            for headers in ({"Origin": "http://elsewhere.example"}, {},
                            {"Origin": address, "Host": "elsewhere.example"}):
                with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
                    await client.ws_connect(f"{address}/ws", headers=headers)
                assert refused.value.status == 403
            assert (await client.get(address, headers={"Host": "elsewhere.example"})).status == 403
        for number, (tab, name) in enumerate(zip(tabs, ("Annas roof", "Bens roof"), strict=False),
                                             1):
            await tab.open(address)
            await tab.painted()
            own = folder / f"visitor-{number:02}"
            await until(own.is_dir)
            assert own.stat().st_mode & 0o077 == 0
            await tab.press("n")
            # The first box of a new job is its name.
            await tab.type(name)
            await until(lambda own=own, name=name: any(name in job for job in jobs(own)))
            loaded = await tab.value(
                "performance.getEntriesByType('resource').map(one => one.name)")
            assert loaded
            assert all(one.startswith(address) for one in loaded), loaded
        assert not any("Bens" in job for job in jobs(folder / "visitor-01"))
        assert not any("Annas" in job for job in jobs(folder / "visitor-02"))
        # Opened again it is the same visitor, with the same jobs.
        await tabs[0].call("Page.navigate", url=address)
        await tabs[0].painted()
        assert sorted(one.name for one in folder.glob("visitor-*")) == ["visitor-01", "visitor-02"]
        await tabs[2].open(address)
        async with asyncio.timeout(PATIENCE):
            while "The class is full" not in (
                await tabs[2].value("document.body?.innerText ?? ''") or ""
            ):
                await asyncio.sleep(0.05)
        assert len([*folder.glob("visitor-*")]) == 2
