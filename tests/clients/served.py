"""Runs `stave serve` on a folder, and speaks HTTP/1.1 with it byte by byte or as a client does."""

import http.client
import pathlib
import re
import signal
import socket
import subprocess
import threading
import time
import unittest

from published import publish, token

# A Debug build with sanitizers is many times slower than what coaches run.
SECONDS = 20


# The address that a server tells first: host, with brackets where it is of IPv6, and port.
ADDRESS = re.compile(r"http://(\[[0-9a-f:]+\]|[\d.]+):(\d+)/$")


class Served:
    """A server that runs until `stop`; `log` has the lines that it wrote."""

    def __init__(self, stave, folder, *words, cwd=None, before=()):
        self.process = subprocess.Popen(
            [*before, stave, "serve", str(folder), "--port", "0", *words], cwd=cwd, text=True,
            stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        self.first_line = self.process.stdout.readline()
        found = ADDRESS.search(self.first_line)
        if not found:
            raise AssertionError(self.first_line + self.process.stderr.read())
        self.host, self.port = found.group(1), int(found.group(2))
        self.log = []
        self.reader = threading.Thread(target=self.log.extend, args=(self.process.stdout,))
        self.reader.start()

    def stop(self, how=signal.SIGTERM):
        """The exit code and what was said of problems."""
        if self.process.poll() is None:
            self.process.send_signal(how)
        code = self.process.wait(SECONDS)
        self.reader.join()
        said = self.process.stderr.read()
        self.process.stdout.close()
        self.process.stderr.close()
        return code, said

    def connect(self):
        return socket.create_connection(("127.0.0.1", self.port), SECONDS)

    def raw(self, data):
        """All that comes back until the connection is closed."""
        with self.connect() as link:
            link.sendall(data)
            parts = []
            try:
                while part := link.recv(65536):
                    parts.append(part)
            except ConnectionResetError:
                pass
        return b"".join(parts)

    def ask(self, path, method="GET", **fields):
        """The answer and its body; names of fields are written with _ for -."""
        link = http.client.HTTPConnection("127.0.0.1", self.port, timeout=SECONDS)
        link.request(method, path, headers={name.replace("_", "-"): value
                                            for name, value in fields.items()})
        answer = link.getresponse()
        body = answer.read()
        link.close()
        return answer, body

    def status_of(self, target):
        """Of a target that no client would send."""
        answer = self.raw(b"GET " + target + b" HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
        return int(answer.split(b" ", 2)[1])


class PublishedFolder(unittest.TestCase):
    """A published folder, served for all tests of a class."""

    stave = ""
    examples = pathlib.Path()

    @classmethod
    def setUpClass(cls):
        cls.folder = publish(cls)
        cls.site = cls.folder / "site"
        cls.token = token(cls.folder)
        cls.served = Served(cls.stave, "site", cwd=cls.folder)
        cls.addClassCleanup(cls.served.stop)

    @staticmethod
    def wait_until(is_done):
        end = time.monotonic() + SECONDS
        while not is_done():
            if time.monotonic() > end:
                raise AssertionError("waited in vain")
            time.sleep(0.02)


def main(argv):
    PublishedFolder.stave = str(pathlib.Path(argv.pop(1)).resolve())
    PublishedFolder.examples = pathlib.Path(argv.pop(1)).resolve()
    unittest.main()
