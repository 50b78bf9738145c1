"""How `stave serve` bears clients that are slow, many or hostile, and how it starts and stops.

usage: hostile_clients.py STAVE EXAMPLES [unittest options]

Sections are those of RFC 9110 where no other is named.
"""

import email.utils
import hashlib
import http.client
import os
import pathlib
import re
import shutil
import signal
import socket
import subprocess
import sys
import threading
import time

from served import SECONDS, PublishedFolder, Served, main

FEED = "/feeds/slack-water.ics"
HEAD = b"GET /index.html HTTP/1.1\r\nHost: a\r\n"
# A request has to be whole within ten seconds; clocks and a busy machine need some more.
REQUEST_SECONDS = 10


class OutOfTheFolder(PublishedFolder):
    def test_no_target_leads_out(self):
        (self.folder / "secret.txt").write_text("secret", "utf-8")
        for target in (b"/../secret.txt", b"/%2e%2e/secret.txt", b"/.%2E/secret.txt",
                       b"/feeds/../../secret.txt", b"/feeds/..%2f..%2fsecret.txt",
                       b"/feeds/%2e%2e%2f%2e%2e%2fsecret.txt", b"/..%5csecret.txt",
                       b"//../secret.txt", b"/%2fetc/passwd", b"//etc/passwd", b"/./secret.txt",
                       b"/..;/secret.txt", b"/%c0%ae%c0%ae/secret.txt",
                       b"/%252e%252e/secret.txt", b"http://a/../secret.txt",
                       b"/feeds/slack-water.ics/../../../secret.txt", b"/" + b"../" * 300 + b"x"):
            self.assertEqual(self.served.status_of(target), 404, target)
        for target in (b"/%", b"/%4", b"/%zz", b"/index.html%00", b"/%00/../secret.txt",
                       b"/a%0d%0aSet-Cookie:%20b", b"secret.txt", b"../secret.txt", b"*",
                       b"file:///etc/passwd"):
            self.assertEqual(self.served.status_of(target), 400, target)

    def test_what_is_hidden_is_not_there(self):
        (self.site / ".git").mkdir()
        for name in (".env", ".git/config", "pocket.addresses", "x.pdf.12.part"):
            (self.site / name).write_text("secret", "utf-8")
            self.assertEqual(self.served.status_of(b"/" + name.encode()), 404, name)
        for target in (b"/stave-manifest.json", b"/%73tave-manifest.json", b"/cards/", b"/feeds/",
                       b"/private/", b"/private", b"/private/%s/cards/" % self.token.encode()):
            self.assertEqual(self.served.status_of(target), 404, target)

    def test_links_and_pipes_are_not_followed(self):
        outside = self.folder / "outside"
        outside.mkdir()
        (outside / "secret.txt").write_text("secret", "utf-8")
        (self.site / "out.txt").symlink_to(outside / "secret.txt")
        (self.site / "out").symlink_to(outside)
        (self.site / "up").symlink_to("..")
        (self.site / "top").symlink_to("/")
        (self.site / "loop").symlink_to("loop")
        (self.site / "self").symlink_to("/proc/self/environ")
        os.mkfifo(self.site / "pipe.txt")
        for target in (b"/out.txt", b"/out/secret.txt", b"/up/secret.txt", b"/top/etc/passwd",
                       b"/loop", b"/self", b"/pipe.txt"):
            self.assertEqual(self.served.status_of(target), 404, target)


class Malformed(PublishedFolder):
    def count_refused(self):
        return sum(line.startswith("400 ") for line in self.served.log)

    def first_line(self, data):
        return self.served.raw(data).split(b"\r\n", 1)[0]

    def test_what_is_no_request_is_refused(self):
        # RFC 9112, sections 3.2, 5.1, 6.1 and 6.3.
        for data in (b"GET / HTTP/1.1\r\nConnection: close\r\n\r\n",
                     HEAD + b"Host: b\r\nConnection: close\r\n\r\n",
                     HEAD + b"X : y\r\nConnection: close\r\n\r\n",
                     HEAD + b"no colon\r\n\r\n",
                     HEAD + b"Content-Length: -5\r\n\r\n", b"GET /\r\n\r\n"):
            self.assertIn(b" 400 ", self.first_line(data), data)
        self.assertIn(b" 505 ", self.first_line(b"GET / HTTP/7.0\r\nHost: a\r\n\r\n"))
        # A handshake of TLS.
        self.served.raw(b"\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03" + b"\r\n\r\n")

    def test_a_length_that_is_none_is_answered_once(self):
        # RFC 9112, section 6.3: the connection ends, since nobody knows where the next begins.
        before, asked = self.count_refused(), 0
        for length in (b"-5", b"+5", b"x", b"0x5", b"5x", b"5,6", b"5 6", b"", b"1e3", b"9" * 40,
                       b"5\r\nContent-Length: 6", b"\xd9\xa5"):
            for method in (b"GET", b"POST"):
                answer = self.served.raw(method + b" / HTTP/1.1\r\nHost: a\r\nContent-Length: "
                                         + length + b"\r\n\r\nhello" + HEAD + b"\r\n")
                self.assertEqual(answer.count(b"HTTP/1.1 "), 1, (method, length, answer[:300]))
                self.assertRegex(answer, rb"^HTTP/1\.1 400 ", length)
                self.assertEqual(answer.count(b"Bad Request"), 2, answer)
                asked += 1
        # And each is a line of the log.
        self.wait_until(lambda: self.count_refused() >= before + asked)
        self.assertEqual(self.count_refused(), before + asked)

    def test_bodies_in_codings_that_nobody_knows_are_answered_once(self):
        # RFC 9112, sections 6.1 and 6.3.
        for coding in (b"gzip", b"chunked, gzip", b"x", b"", b"chunked\r\nContent-Length: 5",
                       b"chunked\r\nTransfer-Encoding: chunked"):
            answer = self.served.raw(b"POST / HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: " + coding
                                     + b"\r\n\r\nzz\r\nhello" + HEAD + b"\r\n")
            self.assertEqual(answer.count(b"HTTP/1.1 "), 1, (coding, answer[:300]))
            self.assertRegex(answer, rb"^HTTP/1\.1 4\d\d ", coding)

    def test_heads_have_their_bounds(self):
        # 15.5.15; RFC 6585, section 5.
        for data, status in ((b"GET /" + b"a" * 70000 + b" HTTP/1.1\r\nHost: a\r\n\r\n", b" 414 "),
                             (HEAD + b"X: " + b"a" * 70000 + b"\r\n\r\n", b" 431 "),
                             (HEAD + b"X: y\r\n" * 9000 + b"\r\n", b" 431 ")):
            self.assertIn(status, self.first_line(data))
        # RFC 9112, section 3: at least 8000 for the first line.
        self.assertEqual(self.served.status_of(b"/" + b"a" * 8000), 404)

    def test_bodies_are_not_read(self):
        # RFC 9112, section 9.6: and so the connection ends with the answer.
        for data in (b"POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 9999999999\r\n\r\n",
                     b"PUT /x HTTP/1.1\r\nHost: a\r\nTransfer-Encoding: chunked\r\n\r\n5\r\nhello",
                     b"POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 5\r\n"
                     b"Expect: 100-continue\r\n\r\n"):
            answer = self.served.raw(data)
            self.assertTrue(answer.startswith(b"HTTP/1.1 405 "), answer)
            self.assertIn(b"\r\nConnection: close\r\n", answer)
        # What looks like a second request is the first one's body.
        answer = self.served.raw(HEAD + b"Content-Length: 40\r\n\r\n" + HEAD + b"\r\n")
        self.assertEqual(answer.count(b"HTTP/1.1 "), 1)
        self.assertFalse((self.site / "x").exists())


class Many(PublishedFolder):
    def ask_promptly(self):
        begin = time.monotonic()
        self.assertEqual(self.served.ask(FEED)[0].status, 200)
        # Who is waited for is let go after ten seconds.
        self.assertLess(time.monotonic() - begin, 8)

    def trickle(self, links, stop):
        """A byte to each connection now and then, as if a request would come one day."""
        for byte in HEAD + b"X: " + b"a" * 1000:
            for link in links:
                try:
                    link.send(bytes([byte]))
                except OSError:
                    pass
            if stop.wait(0.25):
                return

    def test_slow_and_silent_clients_hold_up_nobody_and_are_let_go(self):
        begin = time.monotonic()
        slow = [self.served.connect() for _ in range(50)]
        silent = [self.served.connect() for _ in range(50)]
        # Gets an answer and does not read it.
        (self.site / "large.bin").write_bytes(bytes(20_000_000))
        deaf = [self.served.connect() for _ in range(20)]
        for link in deaf:
            link.sendall(b"GET /large.bin HTTP/1.1\r\nHost: a\r\n\r\n")
        stop = threading.Event()
        self.addCleanup(stop.set)
        sender = threading.Thread(target=self.trickle, args=(slow, stop), daemon=True)
        sender.start()
        while time.monotonic() - begin < 2:
            self.ask_promptly()
        for link in slow + silent:
            try:
                while link.recv(4096):
                    pass
            except ConnectionResetError:
                pass
            self.assertLess(time.monotonic() - begin, REQUEST_SECONDS + 4)
        self.assertGreater(time.monotonic() - begin, REQUEST_SECONDS - 1)
        stop.set()
        sender.join()
        for link in slow + silent + deaf:
            link.close()
        self.ask_promptly()

    def test_two_hundred_at_once_are_served(self):
        wanted = (self.site / FEED[1:]).read_bytes()
        links = [self.served.connect() for _ in range(200)]
        for link in links:
            link.sendall(b"GET " + FEED.encode() + b" HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
        for link in links:
            with link, link.makefile("rb") as answer:
                self.assertEqual(answer.read().partition(b"\r\n\r\n")[2], wanted)

    def test_more_than_there_is_room_for_are_not_for_ever(self):
        served = Served(self.stave, self.site, before=["prlimit", "--nofile=40"])
        self.addCleanup(served.stop)
        links = []
        for _ in range(100):
            links.append(served.connect())
        for link in links:
            link.close()
        self.wait_until(lambda: served.ask(FEED)[0].status == 200)


class Large(PublishedFolder):
    """Files of any size, in pieces: those of more than 8 MB are not held in memory."""

    SIZE = 300 << 20

    def sized(self, name, size, end=b""):
        # It has holes, and so takes no room on the disk.
        with open(self.site / name, "wb") as file:
            file.truncate(size - len(end))
            file.seek(size - len(end))
            file.write(end)

    def old(self, name):
        """A file whose last change is not of this moment."""
        while time.time() - (self.site / name).stat().st_ctime < 2.1:
            time.sleep(0.05)

    def most_memory(self):
        """In bytes; proc(5), VmHWM."""
        status = pathlib.Path(f"/proc/{self.served.process.pid}/status").read_text("ascii")
        return int(re.search(r"VmHWM:\s*(\d+) kB", status).group(1)) << 10

    def count_bytes(self, path):
        """Of the body, which is not held here either."""
        link = http.client.HTTPConnection("127.0.0.1", self.served.port, timeout=SECONDS)
        link.request("GET", path)
        answer = link.getresponse()
        count = 0
        while piece := answer.read(1 << 20):
            count += len(piece)
        link.close()
        return answer, count

    def test_large_files_take_no_memory(self):
        self.sized("film.bin", self.SIZE, end=b"the end")
        self.served.ask(FEED)
        before = self.most_memory()
        answer, count = self.count_bytes("/film.bin")
        self.assertEqual((answer.status, count), (200, self.SIZE))
        self.assertEqual(answer.getheader("Content-Length"), str(self.SIZE))
        # 14.2 and 15.3.7.
        for asked, wanted in (("-7", b"the end"), ("0-3", bytes(4)),
                              (f"{self.SIZE - 3}-", b"end"),
                              (f"-{200 << 20}", bytes((200 << 20) - 7) + b"the end")):
            answer, body = self.served.ask("/film.bin", Range=f"bytes={asked}")
            self.assertEqual(answer.status, 206, asked)
            self.assertTrue(body == wanted, asked)
        self.assertLess(self.most_memory() - before, 8 << 20)

    def test_all_else_is_as_of_small_ones(self):
        self.sized("sea.txt", 1 << 40)
        self.old("sea.txt")
        begin = time.monotonic()
        # 9.3.2, 8.8.2, 8.8.3; it is not packed.
        head, nothing = self.served.ask("/sea.txt", "HEAD", Accept_Encoding="gzip")
        self.assertEqual((head.status, nothing), (200, b""))
        self.assertEqual(head.getheader("Content-Length"), str(1 << 40))
        self.assertEqual(head.getheader("Content-Type"), "text/plain; charset=utf-8")
        self.assertIsNone(head.getheader("Content-Encoding"))
        self.assertEqual(email.utils.parsedate_to_datetime(
            head.getheader("Last-Modified")).timestamp(),
            int((self.site / "sea.txt").stat().st_mtime))
        tag = head.getheader("ETag")
        for status, fields in ((304, {"If_None_Match": tag}), (412, {"If_Match": '"x"'}),
                               (304, {"If_Modified_Since": head.getheader("Last-Modified")}),
                               (206, {"Range": "bytes=5-9", "If_Range": tag}),
                               (416, {"Range": f"bytes={1 << 40}-"})):
            answer, body = self.served.ask("/sea.txt", **fields)
            self.assertEqual(answer.status, status, fields)
            self.assertLess(len(body), 100)
        self.assertEqual(answer.getheader("Content-Range"), f"bytes */{1 << 40}")
        self.assertLess(time.monotonic() - begin, 2)
        self.wait_until(lambda: "206 GET /sea.txt\n" in self.served.log)

    def test_a_tag_stands_for_one_content(self):
        # 8.8.1: also where two changes have the same time.
        self.sized("tide.bin", 10 << 20)
        path = self.site / "tide.bin"
        tags = []
        for letter in b"abc":
            with open(path, "r+b") as file:
                file.write(bytes([letter]))
            os.utime(path, (1, 1))
            tags.append(self.served.ask("/tide.bin", "HEAD")[0].getheader("ETag"))
        self.assertEqual(len(set(tags)), 3)
        self.old("tide.bin")
        tags = {self.served.ask("/tide.bin", "HEAD")[0].getheader("ETag") for _ in range(3)}
        self.assertEqual(len(tags), 1)
        self.assertRegex(tags.pop(), r'^"[^"]+"$')

    def test_on_the_border_both_come_whole(self):
        for size in ((8 << 20) - 1, 8 << 20, (8 << 20) + 1):
            self.sized("border.bin", size, end=b"x")
            body = self.served.ask("/border.bin")[1]
            self.assertEqual((len(body), body[-1:]), (size, b"x"))

    def test_who_takes_it_slowly_holds_up_nobody(self):
        self.sized("slow.bin", self.SIZE)
        slow = [self.served.connect() for _ in range(30)]
        for link in slow:
            link.sendall(b"GET /slow.bin HTTP/1.1\r\nHost: a\r\n\r\n")
        for _ in range(20):
            begin = time.monotonic()
            for link in slow:
                link.recv(1000)
            self.assertEqual(self.served.ask(FEED)[0].status, 200)
            self.assertLess(time.monotonic() - begin, 5)
        for link in slow:
            link.close()

    def begun(self, name):
        """A connection that has had the beginning of the file, and what it has had. Sockets hold
        less than all of it."""
        link = self.served.connect()
        link.sendall(f"GET /{name} HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n".encode())
        return link, link.recv(1000)

    def rest(self, link, got):
        with link, link.makefile("rb") as rest:
            return (got + rest.read()).partition(b"\r\n\r\n")[2]

    def test_what_takes_its_place_is_not_mixed_into_it(self):
        size = 30 << 20
        (self.site / "film.bin").write_bytes(b"a" * size)
        link, got = self.begun("film.bin")
        (self.site / "film.bin.1.part").write_bytes(b"b" * size)
        (self.site / "film.bin.1.part").rename(self.site / "film.bin")
        self.assertTrue(self.rest(link, got) == b"a" * size)
        self.assertTrue(self.served.ask("/film.bin")[1] == b"b" * size)

    def test_what_is_written_to_meanwhile_ends_early(self):
        # RFC 9112, section 8: who has less than the length said knows that it is not whole.
        size = 30 << 20
        for change in (lambda file: file.write(b"b"), lambda file: file.truncate(size // 2)):
            (self.site / "log.bin").write_bytes(b"a" * size)
            link, got = self.begun("log.bin")
            with open(self.site / "log.bin", "r+b") as file:
                change(file)
            body = self.rest(link, got)
            self.assertLess(len(body), size)
            self.assertLessEqual(set(body), set(b"a"))
        self.assertEqual(self.served.ask(FEED)[0].status, 200)


class Changing(PublishedFolder):
    def test_a_file_that_is_replaced_arrives_whole(self):
        path = self.site / "tide.bin"
        texts = [bytes([letter]) * 3_000_000 for letter in b"ab"]
        wanted = {hashlib.sha256(text).hexdigest() for text in texts}

        def replace(text):
            (self.site / "tide.bin.1.part").write_bytes(text)
            (self.site / "tide.bin.1.part").rename(path)

        replace(texts[0])
        tags = {}
        for turn in range(12):
            link = self.served.connect()
            link.sendall(b"GET /tide.bin HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
            got = link.recv(1000)
            replace(texts[(turn + 1) % 2])
            with link, link.makefile("rb") as rest:
                head, _, body = (got + rest.read()).partition(b"\r\n\r\n")
            digest = hashlib.sha256(body).hexdigest()
            self.assertIn(digest, wanted)
            # 8.8.3: the tag is that of these bytes.
            tag = head.partition(b"ETag: ")[2].partition(b"\r\n")[0]
            self.assertEqual(tags.setdefault(digest, tag), tag)
        self.assertEqual(len(set(tags.values())), 2)

    def test_what_is_published_again_is_served_at_once(self):
        before, _ = self.served.ask(FEED)
        source = self.folder / "slack-water.stave"
        source.write_text(source.read_text("utf-8").replace("5..1 + 1..5", "4..1 + 1..4"), "utf-8")
        subprocess.run([self.stave, "publish", "slack-water.stave", "--private", "pocket.stave",
                        "--out", "site", "--svg"], cwd=self.folder, check=True,
                       capture_output=True)
        after, body = self.served.ask(FEED, If_None_Match=before.getheader("ETag"))
        self.assertEqual(after.status, 200)
        self.assertEqual(body, (self.site / FEED[1:]).read_bytes())
        # The private page has not changed, and who has it need not fetch it again.
        page, _ = self.served.ask(f"/private/{self.token}/")
        self.assertEqual(page.status, 200)

    def test_a_folder_that_goes_and_comes_is_served_again(self):
        site = self.folder / "moving"
        shutil.copytree(self.site, site)
        served = Served(self.stave, site)
        self.addCleanup(served.stop)
        site.rename(self.folder / "away")
        self.assertEqual(served.ask(FEED)[0].status, 404)
        (self.folder / "away").rename(site)
        self.assertEqual(served.ask(FEED)[0].status, 200)


class StartAndStop(PublishedFolder):
    def refused(self, *words, before=()):
        run = subprocess.run([*before, self.stave, "serve", *words, "--diagnostics", "line"],
                             cwd=self.folder, capture_output=True, text=True, timeout=SECONDS,
                             check=False)
        self.assertEqual((run.returncode, run.stdout), (3, ""), run.stderr)
        return run.stderr.rpartition("[")[2].removesuffix("]\n")

    def test_it_says_why_it_does_not_start(self):
        self.assertEqual(self.refused("absent"), "serve-folder")
        self.assertEqual(self.refused("slack-water.stave"), "serve-folder")
        # A folder of sources is not given away by a slip.
        self.assertEqual(self.refused("."), "not-published")
        (self.folder / "other").mkdir()
        (self.folder / "other/index.html").write_text("<p>Tides", "utf-8")
        self.assertEqual(self.refused("other"), "not-published")
        self.assertEqual(self.refused("site", "--port", str(self.served.port)), "port-taken")

    def test_ports_of_administrators_are_not_to_be_had(self):
        before = (["setpriv", "--bounding-set=-net_bind_service"] if os.geteuid() == 0 else [])
        self.assertEqual(self.refused("site", "--port", "999", before=before), "cannot-listen")

    def test_a_network_is_needed_to_be_reached_in_one(self):
        alone = ["unshare", "--user", "--map-root-user", "--net"]
        self.assertEqual(self.refused("site", "--lan", before=alone), "no-network")

    def test_a_signal_ends_it_in_order(self):
        for how in (signal.SIGTERM, signal.SIGINT):
            served = Served(self.stave, self.site)
            idle = served.connect()
            begin = time.monotonic()
            self.assertEqual(served.stop(how), (0, ""))
            self.assertLess(time.monotonic() - begin, 4)
            idle.close()
            with self.assertRaises(OSError):
                served.connect()

    def test_what_is_on_its_way_still_arrives(self):
        (self.site / "long.bin").write_bytes(bytes(20_000_000))
        served = Served(self.stave, self.site)
        self.addCleanup(served.stop)
        link = served.connect()
        link.sendall(b"GET /long.bin HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
        with link, link.makefile("rb") as answer:
            answer.read(1000)
            served.process.send_signal(signal.SIGTERM)
            time.sleep(0.3)
            self.assertGreater(len(answer.read()), 19_999_000)
        self.assertEqual(served.process.wait(SECONDS), 0)

    def test_its_port_is_free_again_at_once(self):
        served = Served(self.stave, self.site)
        served.ask(FEED)
        served.stop()
        again = subprocess.Popen([self.stave, "serve", self.site, "--port", str(served.port)],
                                 stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        self.assertIn(b"served at", again.stdout.readline())
        again.terminate()
        again.communicate(timeout=SECONDS)
        self.assertEqual(again.returncode, 0)

    def test_a_log_that_nobody_reads_stops_nothing(self):
        server = subprocess.Popen([self.stave, "serve", self.site, "--port", "0"],
                                  stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        port = int(server.stdout.readline().rpartition(b":")[2].rstrip(b"/\n"))
        with socket.create_connection(("127.0.0.1", port), SECONDS) as link:
            for _ in range(50):
                link.sendall((HEAD + b"If-None-Match: *\r\n\r\n") * 100)
                got = b""
                while got.count(b"\r\n\r\n") < 100:
                    got += link.recv(65536)
        server.terminate()
        server.communicate(timeout=SECONDS)
        self.assertEqual(server.returncode, 0)

    def test_a_reader_of_the_log_may_leave(self):
        server = subprocess.Popen([self.stave, "serve", self.site, "--port", "0"],
                                  stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, bufsize=0)
        port = int(server.stdout.readline().rpartition(b":")[2].rstrip(b"/\n"))
        server.stdout.close()
        for _ in range(3):
            with socket.create_connection(("127.0.0.1", port), SECONDS) as link:
                link.sendall(HEAD + b"\r\n")
                self.assertTrue(link.recv(100).startswith(b"HTTP/1.1 200 "))
        server.terminate()
        self.assertEqual(server.wait(SECONDS), 0)


if __name__ == "__main__":
    main(sys.argv)
