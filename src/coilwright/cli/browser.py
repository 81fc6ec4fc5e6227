"""The wizard in a browser, for a class: the command, and a clear word without the extra."""

from __future__ import annotations

import argparse
import sys
from importlib.util import find_spec

from coilwright.cli.problems import Problem

MOST_VISITORS = 40
LOOPBACK = "127.0.0.1"


def browser(given: argparse.Namespace) -> int:
    """Serve the wizard to a class until Ctrl-C. Raises Problem."""
    host = _address(given.host)
    if not (find_spec("aiohttp") and find_spec("textual_serve")):
        raise Problem("a class in a browser needs an extra that is not installed: "
                      "pip install 'coilwright[browser]'.")
    from coilwright.cli.serving import Served, Visitors, serve
    from coilwright.store import home
    from coilwright.store.files import named_path

    folder = named_path(given.folder) if given.folder else home() / "visitors"
    attempts = folder / "attempts"
    try:
        attempts.mkdir(mode=0o700, parents=True, exist_ok=True)
        folder.chmod(0o700)
    except OSError as error:
        raise Problem(f"{folder}: {(error.strerror or str(error)).lower()}.") from None
    served = Served(Visitors(folder, given.visitors), attempts, host, given.port,
                    ("localhost",) if host == LOOPBACK else ())
    print(f"Open {served.origin}/ in a browser; room for {given.visitors} visitors.\n"
          f"Ctrl-C ends it.\nWhat they hand in: {attempts}\nTheir jobs: {folder}", flush=True)
    if host not in (LOOPBACK, "::1"):
        print("Anyone who reaches that address can use the wizard, and through it read and write "
              "files as you; nothing is encrypted. Only for a room you trust.", file=sys.stderr,
              flush=True)
    try:
        serve(served, host, given.port)
    except OSError as error:
        raise Problem(f"{host}, port {given.port}: {error.strerror or error}.") from None
    return 0


def _address(text: str) -> str:
    """An address of this machine, by number; never all of them at once. Raises Problem."""
    import ipaddress  # costs start-up, and no other command needs it

    if text == "localhost":
        return LOOPBACK
    try:
        found = ipaddress.ip_address(text)
    except ValueError:
        raise Problem(f"“{text[:60]}” is no address; give one such as 192.168.1.20.") from None
    if found.is_unspecified:
        raise Problem("give the one address that the class will open, not all of this machine's.")
    return str(found)
