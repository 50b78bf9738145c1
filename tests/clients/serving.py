"""A published folder behind a real nginx, with the configuration that we show.

usage: serving.py STAVE FOLDER [unittest options]

Names, certificate and folder are the test's own; every other line is that of
examples/serving/nginx.conf. Status codes and fields are those of RFC 9110 and RFC 9111, the
type is that of RFC 5545, section 8.1.
"""

import gzip
import http.client
import pathlib
import re
import shutil
import socket
import subprocess
import sys
import time
import unittest

from icalendar import Calendar

from published import publish, token

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
NGINX = shutil.which("nginx", path="/usr/sbin:/usr/bin")
SECONDS = 20


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def configuration(folder, port):
    """The lines of ours in a whole configuration that needs no rights."""
    server = (ROOT / "examples/serving/nginx.conf").read_text("utf-8")
    server = re.sub(r"listen [^;]*;", f"listen 127.0.0.1:{port};", server)
    server = re.sub(r"\n *ssl_certificate[^;]*;", "", server)
    server = server.replace("root /srv/crew;", f"root {folder}/site;")
    server = server.replace("include mime.types;", "include /etc/nginx/mime.types;")
    places = "".join(f"  {name}_temp_path {folder}/{name};\n"
                     for name in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi"))
    return (f"daemon off; pid {folder}/nginx.pid; error_log {folder}/error.log;\n"
            f"events {{}}\nhttp {{\n  access_log {folder}/access.log;\n{places}{server}}}\n")


class Nginx:
    """Serves `folder`/site until `stop`."""

    def __init__(self, folder):
        self.folder = folder
        # A server that was started by root reads as somebody else.
        folder.chmod(0o755)
        self.port = free_port()
        (folder / "nginx.conf").write_text(configuration(folder, self.port), "utf-8")
        self.process = subprocess.Popen([NGINX, "-p", str(folder), "-c", "nginx.conf"],
                                        stderr=subprocess.DEVNULL)
        self.wait_until_it_answers()

    def wait_until_it_answers(self):
        end = time.monotonic() + SECONDS
        while time.monotonic() < end:
            try:
                socket.create_connection(("127.0.0.1", self.port), 1).close()
                return
            except OSError:
                time.sleep(0.05)
        raise AssertionError((self.folder / "error.log").read_text())

    def stop(self):
        self.process.terminate()
        self.process.wait()


class Serving(unittest.TestCase):
    stave = ""
    examples = pathlib.Path()

    @classmethod
    def setUpClass(cls):
        cls.folder = publish(cls, "--base", "https://crew.example.org/")
        nginx = Nginx(cls.folder)
        cls.port = nginx.port
        cls.addClassCleanup(nginx.stop)

    def get(self, path, **fields):
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=SECONDS)
        link.request("GET", path, headers={name.replace("_", "-"): value
                                           for name, value in fields.items()})
        answer = link.getresponse()
        body = answer.read()
        link.close()
        return answer, body

    def test_types_are_those_that_calendars_and_browsers_need(self):
        for path, kind in (("/feeds/slack-water.ics", "text/calendar; charset=utf-8"),
                           ("/feeds/slack-water.html", "text/html; charset=utf-8"),
                           ("/", "text/html; charset=utf-8"),
                           ("/cards/session-9-slack-water.pdf", "application/pdf"),
                           ("/cards/session-9-slack-water.svg", "image/svg+xml; charset=utf-8")):
            answer, body = self.get(path)
            self.assertEqual((answer.status, answer.getheader("Content-Type")), (200, kind), path)
            self.assertIsNone(answer.getheader("Content-Disposition"))
            self.assertEqual(answer.getheader("X-Content-Type-Options"), "nosniff")
            self.assertTrue(body)

    def test_a_feed_comes_whole_and_once_only(self):
        answer, body = self.get("/feeds/slack-water.ics")
        self.assertEqual(body, (self.folder / "site/feeds/slack-water.ics").read_bytes())
        self.assertEqual(len(Calendar.from_ical(body).walk("VEVENT")), 1)
        for field, value in (("If-None-Match", answer.getheader("ETag")),
                             ("If-Modified-Since", answer.getheader("Last-Modified"))):
            again, nothing = self.get("/feeds/slack-water.ics", **{field: value})
            self.assertEqual((again.status, nothing), (304, b""), field)

    def test_text_is_packed_for_the_way(self):
        for path in ("/feeds/slack-water.ics", "/feeds/slack-water.html",
                     "/cards/session-9-slack-water.svg"):
            answer, body = self.get(path, Accept_Encoding="gzip")
            self.assertEqual(answer.getheader("Content-Encoding"), "gzip", path)
            self.assertEqual(gzip.decompress(body), (self.folder / f"site{path}").read_bytes())

    def test_caches_ask_again_soon(self):
        answer, _ = self.get("/feeds/slack-water.ics")
        self.assertEqual(answer.getheader("Cache-Control"),
                         "public, max-age=300, must-revalidate")

    def test_nobody_looks_around(self):
        (self.folder / "site/cards/x.pdf.12.part").write_bytes(b"half")
        for path in ("/cards/", "/feeds/", "/private/", f"/private/{token(self.folder)}/cards/"):
            self.assertEqual(self.get(path)[0].status, 403, path)
        for path in ("/stave-manifest.json", "/cards/x.pdf.12.part", "/absent"):
            self.assertEqual(self.get(path)[0].status, 404, path)

    def test_private_addresses_stay_out_of_caches_search_engines_and_logs(self):
        answer, body = self.get(f"/private/{token(self.folder)}/")
        self.assertEqual(answer.status, 200)
        self.assertIn(b"noindex", body)
        self.assertEqual(answer.getheader("X-Robots-Tag"), "noindex, nofollow, noarchive")
        self.assertEqual(answer.getheader("Cache-Control"),
                         "private, max-age=300, must-revalidate")
        self.get("/index.html")
        log = (self.folder / "access.log").read_text()
        self.assertIn("/index.html", log)
        self.assertNotIn(token(self.folder), log)


def main():
    Serving.stave = str(pathlib.Path(sys.argv.pop(1)).resolve())
    Serving.examples = pathlib.Path(sys.argv.pop(1)).resolve()
    unittest.main()


if __name__ == "__main__":
    main()
