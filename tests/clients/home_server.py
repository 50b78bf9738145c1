"""What `stave serve` answers, held against RFC 9110: its sections are named where no other is.

usage: home_server.py STAVE EXAMPLES [unittest options]
"""

import email.utils
import gzip
import http.client
import os
import pty
import re
import subprocess
import sys

from icalendar import Calendar

from served import PublishedFolder, Served, main

FEED = "/feeds/slack-water.ics"
CARD = "/cards/session-9-slack-water.pdf"
PICTURE = "/cards/session-9-slack-water.svg"
# What is not of the file but of the moment or the connection.
OF_THE_MOMENT = {"Date", "Connection"}


class Answers(PublishedFolder):
    def fields(self, answer):
        return {name: value for name, value in answer.getheaders() if name not in OF_THE_MOMENT}

    def test_types_are_those_that_calendars_and_browsers_need(self):
        # RFC 5545, section 8.1, for feeds; RFC 8259, section 11: JSON has no charset.
        (self.site / "notes.txt").write_text("ebb\n", "utf-8")
        (self.site / "tides.json").write_text("{}", "utf-8")
        (self.site / "mark.png").write_bytes(b"\x89PNG")
        (self.site / "look.css").write_text("p {}", "utf-8")
        (self.site / "odd.xyz").write_bytes(b"<script>")
        (self.site / "LOUD.ICS").write_bytes(b"BEGIN")
        for path, kind in ((FEED, "text/calendar; charset=utf-8"),
                           ("/LOUD.ICS", "text/calendar; charset=utf-8"),
                           ("/", "text/html; charset=utf-8"),
                           ("/feeds/slack-water.html", "text/html; charset=utf-8"),
                           (CARD, "application/pdf"),
                           (PICTURE, "image/svg+xml; charset=utf-8"),
                           ("/notes.txt", "text/plain; charset=utf-8"),
                           ("/look.css", "text/css; charset=utf-8"),
                           ("/tides.json", "application/json"), ("/mark.png", "image/png"),
                           ("/odd.xyz", "application/octet-stream")):
            answer, body = self.served.ask(path)
            self.assertEqual((answer.status, answer.getheader("Content-Type")), (200, kind), path)
            self.assertEqual(answer.getheader("X-Content-Type-Options"), "nosniff")
            self.assertEqual(answer.getheader("Referrer-Policy"), "no-referrer")
            self.assertIsNone(answer.getheader("Content-Disposition"))
            self.assertTrue(body)

    def test_files_come_whole(self):
        for path in (FEED, CARD, PICTURE, "/feeds/slack-water.html"):
            self.assertEqual(self.served.ask(path)[1], (self.site / path[1:]).read_bytes())
        self.assertEqual(self.served.ask("/")[1], (self.site / "index.html").read_bytes())
        self.assertEqual(len(Calendar.from_ical(self.served.ask(FEED)[1]).walk("VEVENT")), 1)

    def test_a_page_runs_nothing_but_keeps_its_look(self):
        policy = self.served.ask("/")[0].getheader("Content-Security-Policy")
        self.assertIn("default-src 'none'", policy)
        self.assertIn("style-src 'unsafe-inline'", policy)
        self.assertIsNone(self.served.ask(CARD)[0].getheader("Content-Security-Policy"))
        for path in ("index.html", "feeds/slack-water.html"):
            page = (self.site / path).read_text("utf-8")
            self.assertNotRegex(page, r"<script|<img|<iframe|<link [^>]*stylesheet|\bon\w+=")

    def test_the_tag_of_a_file_stays_and_belongs_to_its_bytes(self):
        # 8.8.3: strong, so without W/; 8.8.1: another one as soon as a byte changes.
        path = self.site / "tide.txt"
        path.write_text("ebb " * 200, "utf-8")
        first = self.served.ask("/tide.txt")[0].getheader("ETag")
        self.assertRegex(first, r'^"[^"]+"$')
        self.assertEqual(self.served.ask("/tide.txt")[0].getheader("ETag"), first)
        os.utime(path, (1, 1))
        self.assertEqual(self.served.ask("/tide.txt")[0].getheader("ETag"), first)
        path.write_text("Ebb " * 200, "utf-8")
        os.utime(path, (1, 1))
        self.assertNotEqual(self.served.ask("/tide.txt")[0].getheader("ETag"), first)
        path.write_text("ebb " * 200, "utf-8")
        self.assertEqual(self.served.ask("/tide.txt")[0].getheader("ETag"), first)

    def test_who_has_it_already_gets_a_short_answer(self):
        # 15.4.5: a 304 has the fields that a 200 would have and that caches need.
        answer, _ = self.served.ask(FEED)
        self.assertEqual(email.utils.parsedate_to_datetime(
            answer.getheader("Last-Modified")).timestamp(), int((self.site / FEED[1:]).stat().st_mtime))
        for field, value in (("If-None-Match", answer.getheader("ETag")),
                             ("If-None-Match", f'"x", W/{answer.getheader("ETag")}'),
                             ("If-None-Match", "*"),
                             ("If-Modified-Since", answer.getheader("Last-Modified"))):
            for method in ("GET", "HEAD"):
                again, nothing = self.served.ask(FEED, method, **{field: value})
                self.assertEqual((again.status, nothing), (304, b""), field)
                for name in ("ETag", "Cache-Control", "Vary"):
                    self.assertEqual(again.getheader(name), answer.getheader(name))
                # 8.6: its length, if it is said, is that of the 200.
                self.assertEqual(again.getheader("Content-Length"),
                                 answer.getheader("Content-Length"))

    def test_conditions_are_taken_in_their_order(self):
        # 13.2.2.
        tag = self.served.ask(FEED)[0].getheader("ETag")
        old = "Sun, 06 Nov 1994 08:49:37 GMT"
        for status, fields in ((412, {"If_Match": '"x"'}), (200, {"If_Match": tag}),
                               (412, {"If_Match": f"W/{tag}"}),
                               (412, {"If_Unmodified_Since": old}),
                               (200, {"If_Unmodified_Since": old, "If_Match": tag}),
                               (412, {"If_None_Match": tag, "If_Match": '"x"'}),
                               (200, {"If_None_Match": '"x"', "If_Modified_Since":
                                      email.utils.formatdate(usegmt=True)}),
                               (200, {"If_Modified_Since": "soon"})):
            self.assertEqual(self.served.ask(FEED, **fields)[0].status, status, fields)

    def test_head_is_get_without_the_body(self):
        # 9.3.2.
        for path in (FEED, CARD, "/", "/absent", "/feeds/", f"/private/{self.token}/"):
            for fields in ({}, {"Accept_Encoding": "gzip"}):
                answer, _ = self.served.ask(path, **fields)
                head, nothing = self.served.ask(path, "HEAD", **fields)
                self.assertEqual((head.status, self.fields(head)),
                                 (answer.status, self.fields(answer)), path)
                self.assertEqual(nothing, b"")
        # Nothing follows the head on the wire either.
        raw = self.served.raw(b"HEAD / HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n")
        self.assertTrue(raw.endswith(b"\r\n\r\n"))

    def test_parts_are_given(self):
        # 14.2, 14.4, 15.3.7, 15.5.17.
        whole = (self.site / CARD[1:]).read_bytes()
        size = len(whole)
        for asked, first, last in (("0-499", 0, 499), ("-500", size - 500, size - 1),
                                   ("500-", 500, size - 1), (f"9-{size + 9}", 9, size - 1)):
            answer, body = self.served.ask(CARD, Range=f"bytes={asked}")
            self.assertEqual(answer.status, 206, asked)
            self.assertEqual(answer.getheader("Content-Range"), f"bytes {first}-{last}/{size}")
            self.assertEqual(body, whole[first:last + 1])
        answer, _ = self.served.ask(CARD, Range=f"bytes={size}-")
        self.assertEqual(answer.status, 416)
        self.assertEqual(answer.getheader("Content-Range"), f"bytes */{size}")
        for asked in ("bytes=5-4", "lines=1-2", "bytes=0-0,5-6", "bytes=x"):
            self.assertEqual(self.served.ask(CARD, Range=asked)[1], whole, asked)
        # 13.1.5.
        tag = self.served.ask(CARD)[0].getheader("ETag")
        self.assertEqual(self.served.ask(CARD, Range="bytes=0-1", If_Range=tag)[0].status, 206)
        self.assertEqual(self.served.ask(CARD, Range="bytes=0-1", If_Range='"x"')[1], whole)

    def test_text_is_packed_for_the_way(self):
        # 8.4.1.3, 12.5.3, 12.5.5; 8.8.3.3: another coding has another tag.
        for path in (FEED, PICTURE, "/feeds/slack-water.html"):
            plain, _ = self.served.ask(path)
            packed, body = self.served.ask(path, Accept_Encoding="br, gzip")
            self.assertEqual(packed.getheader("Content-Encoding"), "gzip", path)
            self.assertEqual(gzip.decompress(body), (self.site / path[1:]).read_bytes())
            self.assertNotEqual(packed.getheader("ETag"), plain.getheader("ETag"))
            self.assertEqual((plain.getheader("Vary"), packed.getheader("Vary")),
                             ("Accept-Encoding", "Accept-Encoding"))
            same, _ = self.served.ask(path, Accept_Encoding="gzip",
                                      If_None_Match=packed.getheader("ETag"))
            self.assertEqual(same.status, 304)
            refused, _ = self.served.ask(path, Accept_Encoding="gzip;q=0")
            self.assertIsNone(refused.getheader("Content-Encoding"))
        self.assertIsNone(self.served.ask(CARD, Accept_Encoding="gzip")[0]
                          .getheader("Content-Encoding"))

    def test_caches_ask_again_soon(self):
        # RFC 9111, section 5.2.2; private/ is for no cache that others share.
        self.assertEqual(self.served.ask(FEED)[0].getheader("Cache-Control"),
                         "public, max-age=300, must-revalidate")
        answer, body = self.served.ask(f"/private/{self.token}/")
        self.assertEqual(answer.getheader("Cache-Control"), "private, max-age=300, must-revalidate")
        self.assertEqual(answer.getheader("X-Robots-Tag"), "noindex, nofollow, noarchive")
        self.assertIn(b"noindex", body)

    def test_only_giving_is_allowed(self):
        # 9.1, 10.2.1, 15.5.6.
        for method in ("POST", "PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"):
            answer, _ = self.served.ask(FEED, method)
            self.assertEqual((answer.status, answer.getheader("Allow")), (405, "GET, HEAD"), method)
        self.assertEqual(self.served.ask(FEED, "BREW")[0].status, 501)

    def test_a_page_says_that_nothing_is_there(self):
        answer, body = self.served.ask("/absent", Accept_Language="de-AT, en;q=0.5")
        self.assertEqual(answer.status, 404)
        self.assertIn(b'<html lang="de">', body)
        self.assertEqual(answer.getheader("Cache-Control"), "no-store")

    def test_a_folder_is_its_index(self):
        # 15.4.2: with the stroke, so that the page's links hold.
        answer, _ = self.served.ask(f"/private/{self.token}")
        self.assertEqual((answer.status, answer.getheader("Location")),
                         (301, f"/private/{self.token}/"))

    def test_a_connection_serves_several_requests(self):
        # RFC 9112, sections 9.3 and 9.3.2.
        link = http.client.HTTPConnection("127.0.0.1", self.served.port, timeout=20)
        for path in (FEED, "/absent", CARD):
            link.request("GET", path)
            self.assertTrue(link.getresponse().read())
        link.close()
        one = b"GET / HTTP/1.1\r\nHost: a\r\nRange: bytes=0-0\r\n"
        answers = self.served.raw((one + b"\r\n") * 2 + one + b"Connection: close\r\n\r\n")
        self.assertEqual(answers.count(b"206 Partial Content"), 3)

    def test_the_log_tells_what_was_given_and_no_private_address(self):
        for target in (f"/private/{self.token}/", f"/%70rivate/{self.token}", f"/?{self.token}",
                       f"/private/{self.token}x/", "/%1b[2J"):
            self.served.ask(target)
        self.served.ask(CARD)
        self.wait_until(lambda: f"200 GET {CARD}\n" in self.served.log)
        log = "".join(self.served.log)
        self.assertNotIn(self.token, log)
        self.assertNotIn("\x1b", log)
        self.assertNotIn(self.token, self.served.first_line)


class InTheNetwork(PublishedFolder):
    def test_others_reach_it_by_every_address_that_is_told(self):
        served = Served(self.stave, self.site, "--lan")
        self.addCleanup(served.stop)
        link = http.client.HTTPConnection(served.host, served.port, timeout=20)
        link.request("GET", "/")
        self.assertEqual(link.getresponse().status, 200)
        link.close()
        self.assertNotEqual(served.host, "127.0.0.1")
        # Not by an address of the network where that was not asked for.
        alone = http.client.HTTPConnection(served.host, self.served.port, timeout=20)
        with self.assertRaises(OSError):
            alone.request("GET", "/")

    def test_both_versions_of_addresses_lead_to_it(self):
        served = Served(self.stave, self.site, "--lan")
        self.addCleanup(served.stop)
        for host in ("127.0.0.1", "::1"):
            link = http.client.HTTPConnection(host, served.port, timeout=20)
            link.request("GET", FEED)
            self.assertEqual(link.getresponse().status, 200, host)
            link.close()
        # Only this computer, and by one address, where no network was asked for.
        with self.assertRaises(OSError):
            http.client.HTTPConnection("::1", self.served.port, timeout=20).request("GET", "/")

    def test_a_network_without_ipv4_is_served(self):
        """A network of its own, with one end that leads to nobody; addresses by RFC 4193."""
        script = ("ip link set lo up && ip link add crew type veth peer name end && "
                  "ip link set crew up && ip link set end up && "
                  "ip -6 address add fd12:3456:789a:1::20/64 dev crew nodad && exec \"$@\"")
        # What asks has to be in the same network.
        client = ("import http.client, re, subprocess, sys\n"
                  "server = subprocess.Popen(sys.argv[1:], stdout=subprocess.PIPE, text=True)\n"
                  "told = server.stdout.readline()\n"
                  "host, port = re.search(r'http://\\[(.*)\\]:(\\d+)/', told).groups()\n"
                  "link = http.client.HTTPConnection(host, int(port), timeout=20)\n"
                  "link.request('GET', '/')\n"
                  "print(told, link.getresponse().status)\n"
                  "server.terminate()\n"
                  "sys.exit(server.wait(20))\n")
        run = subprocess.run(["unshare", "--user", "--map-root-user", "--net", "sh", "-c", script,
                              "sh", sys.executable, "-c", client, self.stave, "serve", self.site,
                              "--lan", "--port", "0"], capture_output=True, text=True, timeout=60,
                             check=False)
        self.assertEqual((run.returncode, run.stderr), (0, ""), run.stdout)
        self.assertRegex(run.stdout, r"served at http://\[fd12:3456:789a:1::20\]:\d+/\n 200\n$")

    def test_a_telephone_reads_the_address_off_the_terminal(self):
        """zbarimg decodes what the terminal shows: one pixel for each half of a block."""
        ours, theirs = pty.openpty()
        server = subprocess.Popen([self.stave, "serve", self.site, "--lan", "--port", "0"],
                                  stdout=theirs, stderr=theirs, env={"TERM": "xterm"})
        os.close(theirs)
        shown = b""
        while b"Ctrl-C" not in shown:
            shown += os.read(ours, 65536)
        server.terminate()
        self.assertEqual(server.wait(20), 0)
        os.close(ours)
        text = shown.decode("utf-8")
        rows = []
        for line in re.findall(r"\x1b\[38;5;16;48;5;231m(.*?)\x1b\[0m", text):
            rows.append([c in "█▀" for c in line])
            rows.append([c in "█▄" for c in line])
        scale = 4
        pixels = b"".join(
            bytes(0 if dark else 255 for dark in row for _ in range(scale)) * scale for row in rows)
        picture = self.folder / "code.pgm"
        picture.write_bytes(b"P5 %d %d 255\n" % (len(rows[0]) * scale, len(rows) * scale) + pixels)
        read = subprocess.run(["zbarimg", "--quiet", "--raw", picture], capture_output=True,
                              check=True, text=True).stdout.strip()
        self.assertIn(f"served at {read}\r\n", text)
        self.assertRegex(read, r"^http://[\d.]+:\d+/$")


if __name__ == "__main__":
    main(sys.argv)
