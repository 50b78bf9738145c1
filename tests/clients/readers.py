"""The same list of events from five readers of calendars that other people wrote.

`readers_of(program)` has them by name, in the order of `NAMES`. Each takes the bytes of a feed and
gives its events in their order: the UID, and what it finds under the names of `FIELDS`. A time is
an instant in UTC, or without a zone where the feed leaves it floating.

Some use their own knowledge of "Europe/Lisbon" where they have any; `with_unknown_zones` renames
the zones of a feed, so that they too must use its VTIMEZONEs. python3-vobject and ical.js always
do, the former but for zones that are always at UTC.
"""

import functools
import itertools
import json
import pathlib
import subprocess
import tempfile
from datetime import datetime, timezone

import gi
import icalendar
import vobject

import npm_packages

gi.require_version("ICalGLib", "3.0")
from gi.repository import ICalGLib  # noqa: E402

NAMES = ("icalendar", "vobject", "ical.js", "libical", "khal")
TEXTS = ("summary", "description", "location", "url", "status")
FIELDS = ("start", "end", *TEXTS)
# python3-icalendar 4.0.3 reads an escaped backslash before n, comma or semicolon wrongly, and
# with it khal; others must not.
READS_BACKSLASHES = ("vobject", "ical.js", "libical")
KNOW_ZONES = ("icalendar", "libical", "khal")
ZONE_NUMBERS = itertools.count(1)

# Signs that no feed may hold, between the texts and behind the events that khal prints.
FIELD_END, EVENT_END = "\x1f", "\x1e"
KHAL = """\
[calendars]
[[crew]]
path = {folder}/calendar
[locale]
local_timezone = {zone}
default_timezone = {zone}
timeformat = %H:%M:%S
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
datetimeformat = %Y-%m-%d %H:%M:%S
longdatetimeformat = %Y-%m-%d %H:%M:%S
[default]
default_calendar = crew
[sqlite]
path = {folder}/khal.db
"""
# What shows which times are floating: they alone are the same in both.
KHAL_ZONES = ("UTC", "Asia/Tokyo")


def in_utc(time):
    return time.astimezone(timezone.utc) if time.tzinfo else time


def read_icalendar(feed):
    for found in icalendar.Calendar.from_ical(feed).walk("VEVENT"):
        yield str(found["UID"]), {
            "start": in_utc(found["DTSTART"].dt), "end": in_utc(found["DTEND"].dt),
            **{name: str(found.get(name, "")) for name in TEXTS}}


def read_vobject(feed):
    for found in vobject.readOne(feed.decode("utf-8")).vevent_list:
        texts = {name: getattr(found, name).value if hasattr(found, name) else ""
                 for name in TEXTS}
        yield found.uid.value, {"start": in_utc(found.dtstart.value),
                                "end": in_utc(found.dtend.value), **texts}


def moment(told):
    """Seconds since 1970, or a local time as it is written."""
    if isinstance(told, str):
        return datetime.fromisoformat(told)
    return datetime.fromtimestamp(told, timezone.utc)


def read_ical_js(program, feed):
    folder = npm_packages.installed(program)
    told = subprocess.run(["node", "read_feed.mjs"], cwd=folder, input=feed, capture_output=True,
                          check=True).stdout
    for uid, found in json.loads(told):
        yield uid, {**found, "start": moment(found["start"]), "end": moment(found["end"])}


def libical_time(time):
    zone = time.get_timezone()
    if zone is not None:
        return datetime.fromtimestamp(time.as_timet_with_zone(zone), timezone.utc)
    return datetime(time.get_year(), time.get_month(), time.get_day(), time.get_hour(),
                    time.get_minute(), time.get_second(),
                    tzinfo=timezone.utc if time.is_utc() else None)


def read_libical(feed):
    calendar = ICalGLib.Parser.parse_string(feed.decode("utf-8"))
    if calendar.count_errors():
        raise ValueError(f"libical finds {calendar.count_errors()} errors")
    event = calendar.get_first_component(ICalGLib.ComponentKind.VEVENT_COMPONENT)
    while event is not None:
        address = event.get_first_property(ICalGLib.PropertyKind.URL_PROPERTY)
        yield event.get_uid(), {
            "start": libical_time(event.get_dtstart()), "end": libical_time(event.get_dtend()),
            "summary": event.get_summary() or "", "description": event.get_description() or "",
            "location": event.get_location() or "",
            "url": address.get_url() if address is not None else "",
            "status": event.get_status().value_nick.upper()}
        event = calendar.get_next_component(ICalGLib.ComponentKind.VEVENT_COMPONENT)


def in_khal(folder, *words):
    """What khal, which has a folder and an environment of its own, writes."""
    run = subprocess.run(["khal", "-c", "khal", *words], cwd=folder, capture_output=True,
                         check=False, env={"PATH": "/usr/bin:/bin", "HOME": str(folder),
                                           "LC_ALL": "C.UTF-8"})
    if run.returncode or run.stderr:
        raise ValueError(f"khal {words[0]}: {run.stderr.decode()[-2000:]}")
    return run.stdout.decode("utf-8")


def listed_by_khal(folder, zone, span):
    """By UID, with the times of `zone`."""
    (folder / "khal").write_text(KHAL.format(folder=folder, zone=zone), "utf-8")
    form = FIELD_END.join(("{uid}", "{start-long-full}", "{end-long-full}", "{title}",
                           "{description}", "{location}", "{url}", "{status}")) + EVENT_END
    told = in_khal(folder, "list", "--once", "--day-format", "", "--format", form, *span)
    found = {}
    for text in told.split(EVENT_END)[:-1]:
        uid, start, end, *texts = text.removeprefix("\n").split(FIELD_END)
        found[uid] = {"start": datetime.fromisoformat(start), "end": datetime.fromisoformat(end),
                      **dict(zip(TEXTS, texts))}
        # A blank stands behind it.
        found[uid]["status"] = found[uid]["status"].rstrip()
    return found


def read_khal(feed):
    order = [str(event["UID"]) for event in icalendar.Calendar.from_ical(feed).walk("VEVENT")]
    days = sorted(in_utc(event["DTSTART"].dt).date()
                  for event in icalendar.Calendar.from_ical(feed).walk("VEVENT"))
    with tempfile.TemporaryDirectory() as holder:
        folder = pathlib.Path(holder)
        (folder / "calendar").mkdir()
        (folder / "feed.ics").write_bytes(feed)
        (folder / "khal").write_text(KHAL.format(folder=folder, zone=KHAL_ZONES[0]), "utf-8")
        in_khal(folder, "import", "--batch", "feed.ics")
        span = (str(days[0]), f"{(days[-1] - days[0]).days + 2}d")
        here, there = (listed_by_khal(folder, zone, span) for zone in KHAL_ZONES)
    for uid in order:
        event = here[uid]
        for name in ("start", "end"):
            if event[name] != there[uid][name]:
                event[name] = event[name].replace(tzinfo=timezone.utc)
        yield uid, event


def readers_of(program):
    """By name; `program` is one of the build's own, beside which ical.js is kept."""
    return {"icalendar": read_icalendar, "vobject": read_vobject,
            "ical.js": functools.partial(read_ical_js, program), "libical": read_libical,
            "khal": read_khal}


def with_unknown_zones(feed):
    """TZIDs that no reader knows, nor remembers from an earlier feed.

    Names only become shorter, so that no line grows.
    """
    numbers = {}
    lines = []
    for line in feed.split(b"\r\n"):
        for head in (b"TZID:", b"DTSTART;TZID=", b"DTEND;TZID="):
            if line.startswith(head):
                name, colon, value = line[len(head):].partition(b":")
                number = numbers.get(name) or numbers.setdefault(name, next(ZONE_NUMBERS))
                line = head + b"Z%d" % number + colon + value
        lines.append(line)
    return b"\r\n".join(lines)
