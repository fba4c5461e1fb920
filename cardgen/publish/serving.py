"""Serving a preview to the browsers of this machine, and to nobody else.

What is asked for is looked up among the files of the site, so that no path leads anywhere else.
Into a page, as it is sent, go what errors there are and a script, which asks again and again for
another script that is answered when there is something new: pages let no script fetch anything,
and that stays so.
"""

import json
import mimetypes
import sys
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler
from pathlib import PurePosixPath
from socketserver import TCPServer, ThreadingMixIn
from urllib.parse import parse_qs, quote, unquote, urlsplit

from cardgen.publish.preview import Preview, Say, Shown
from cardgen.render.templates import Templates

HOST = "127.0.0.1"
OWN = ".preview/"  # before the names of what no site has
_ASSETS = ("preview.js", "preview.css")
# A site's own keeps pages for want of a network; this one keeps none, and takes its place.
_WORKER = "worker.js", b'addEventListener("install", () => skipWaiting());\n'
_WAIT = 20.0  # seconds until a script that asks is answered even so
_HEADERS = {
    "Cache-Control": "no-store",
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
}
_TYPES = {  # what a machine may have other ideas of
    ".css": "text/css",
    ".csv": "text/csv",
    ".html": "text/html",
    ".js": "text/javascript",
    ".json": "application/json",
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".webmanifest": "application/manifest+json",
}


class Server(ThreadingMixIn, TCPServer):
    """Serves a preview on the loopback address.

    Parameters
    ----------
    preview : Preview
    port : int
        0 for any that is free.
    say : callable
        Puts an error into sentences, or raises it again where it is our own fault.
    """

    allow_reuse_address = True
    request_queue_size = 128  # several pages are loaded again at once
    daemon_threads = True

    def __init__(self, preview: Preview, port: int, say: Say) -> None:
        self.preview = preview
        self.say = say
        self.templates = Templates()
        super().__init__((HOST, port), _Handler)

    @property
    def port(self) -> int:
        """The port that it has."""
        return int(self.server_address[1])

    def handle_error(self, request: object, client_address: object) -> None:
        """Say nothing of a browser that is gone."""
        if not isinstance(sys.exception(), ConnectionError):
            super().handle_error(request, client_address)  # type: ignore[arg-type]


class _Handler(BaseHTTPRequestHandler):
    server: Server
    timeout = 60

    def do_GET(self) -> None:
        """Answer a browser."""
        if not self._is_ours():
            said = "a preview is for this machine alone"
            return self._send(HTTPStatus.FORBIDDEN, "text/plain", said.encode())
        try:
            asked = urlsplit(self.path)
        except ValueError:
            return self._send(HTTPStatus.BAD_REQUEST, "text/plain", b"")
        path = unquote(asked.path).lstrip("/")
        if path == "" or path.endswith("/"):
            path += "index.html"
        if path.startswith(OWN):
            return self._send_own(path.removeprefix(OWN), asked.query)
        shown = self.server.preview.shown
        if f"{path}/index.html" in shown.site:
            return self._redirect(f"/{quote(path)}/")
        if path == _WORKER[0]:
            return self._send_file(*_WORKER)
        try:
            data = self.server.preview.content(path)
        except Exception as error:
            said = "\n".join(self.server.say(error))
            return self._send(HTTPStatus.SERVICE_UNAVAILABLE, "text/plain", said.encode())
        if PurePosixPath(path).suffix not in ("", ".html"):
            return self._send_file(path, data)
        if data is None:
            page = self._rendered("preview.html", path, shown)
            return self._send(HTTPStatus.NOT_FOUND, "text/html", page)
        before, end, after = data.rpartition(b"</body>")
        page = before + self._rendered("preview-box.html", path, shown) + end + after
        return self._send(HTTPStatus.OK, "text/html", page)

    def _is_ours(self) -> bool:
        """Whether a page of this server asks, or a person who typed or followed its address.

        A name that leads to this machine is not enough: any other site may have one that does.
        """
        hosts = {f"{name}:{self.server.port}" for name in (HOST, "localhost")}
        if self.headers.get("Host", "").lower() not in hosts:
            return False
        is_followed = self.headers.get("Sec-Fetch-Mode") == "navigate"
        return is_followed or self.headers.get("Sec-Fetch-Site") in (None, "none", "same-origin")

    def _send_own(self, name: str, query: str) -> None:
        """Send what only a preview has."""
        if name in _ASSETS:
            return self._send_file(name, self.server.templates.render(name).encode())
        if name != "wait.js":
            return self._send(HTTPStatus.NOT_FOUND, "text/plain", b"")
        given = {one: values[0] for one, values in parse_qs(query).items()}
        page, mark, faults = (given.get(one, "") for one in ("page", "mark", "faults"))
        shown = self.server.preview.wait(page, mark, faults, _WAIT)
        now = {
            "mark": shown.mark(page),
            "faults": shown.faults,
            "box": self.server.templates.render("preview-errors.html", errors=shown.errors),
        }
        return self._send_file(name, f"previewed({json.dumps(now)});\n".encode())

    def _rendered(self, template: str, page: str, shown: Shown) -> bytes:
        return self.server.templates.render(
            template, page=page, mark=shown.mark(page), faults=shown.faults, errors=shown.errors
        ).encode()

    def _send_file(self, path: str, data: bytes | None) -> None:
        if data is None:
            return self._send(HTTPStatus.NOT_FOUND, "text/plain", b"")
        suffix = PurePosixPath(path).suffix
        kind = _TYPES.get(suffix) or mimetypes.guess_type(path)[0] or "application/octet-stream"
        return self._send(HTTPStatus.OK, kind, data)

    def _send(self, status: HTTPStatus, kind: str, data: bytes) -> None:
        self.send_response(status)
        is_text = kind.startswith("text/")
        self.send_header("Content-Type", f"{kind}; charset=utf-8" if is_text else kind)
        self.send_header("Content-Length", str(len(data)))
        for name, value in _HEADERS.items():
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(data)

    def _redirect(self, location: str) -> None:
        self.send_response(HTTPStatus.FOUND)
        self.send_header("Location", location)
        self.send_header("Content-Length", "0")
        self.end_headers()

    def log_message(self, *_: object) -> None:
        """Keep the terminal for what was made and what is wrong."""
