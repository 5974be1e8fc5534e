"""Starting the page: on this computer alone, or for telephones in the same network by a secret address."""

from __future__ import annotations

import secrets
import socket
import webbrowser
from collections.abc import Callable

from notesparse.errors import InputError
from notesparse.web.app import make_app
from notesparse.web.desk import Desk


def serve(desk: Desk, port: int, lan: bool, browser: bool, tell: Callable[[str], None]) -> None:
    """Serves until it is stopped. `tell` gets what the user is to see, line by line."""
    import uvicorn

    prefix = f"/{secrets.token_urlsafe(16)}" if lan else ""
    hosts = ["127.0.0.1", "localhost", "::1"]
    bound = _bound("0.0.0.0" if lan else "127.0.0.1", port)
    port = bound.getsockname()[1]
    address = f"http://127.0.0.1:{port}{prefix}/"
    tell(f"The page is at {address}")
    if lan:
        own = _own_address()
        hosts.append(own)
        outside = f"http://{own}:{port}{prefix}/"
        tell(f"For a telephone in the same network: {outside}")
        tell("Whoever has this address can read and change your notes, and nothing on its way is encrypted.")
        tell("Use it in a network that you trust, and stop it afterwards.")
        tell(_square(outside))
    tell("Ctrl-C stops it; all that was kept is in its files.")
    server = uvicorn.Server(uvicorn.Config(make_app(desk, hosts, prefix), log_level="error", server_header=False))
    if browser:
        webbrowser.open(address)
    server.run(sockets=[bound])


def _bound(host: str, port: int) -> socket.socket:
    made = socket.socket(socket.AF_INET, socket.SOCK_STREAM)
    made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        made.bind((host, port))
        made.listen(128)  # whoever opens the address at once waits, and is not refused
    except OSError as fault:
        made.close()
        raise InputError(f"Port {port} cannot be used ({fault.strerror}); choose another with --port.") from None
    return made


def _own_address() -> str:
    """This computer's address in its network. Nothing is sent: a socket only asks the system which way it would go."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(("192.0.2.1", 9))  # an address for documents, that nobody has (RFC 5737)
            return str(probe.getsockname()[0])
        except OSError:
            raise InputError("This computer is in no network; leave --lan out.") from None


def _square(address: str) -> str:
    """The address as a square to be photographed, in characters."""
    import io

    import segno

    held = io.StringIO()
    segno.make(address, micro=False).terminal(held, compact=True)
    return held.getvalue()
