"""A strict reader of feed bytes: RFC 5545 taken at its word, and our own anatomy.

`check(feed)` gives a list of complaints, empty for a good feed. It shares no code
with the writer.
"""
import re

STATE = ["UID", "DTSTAMP", "CREATED", "LAST-MODIFIED", "SEQUENCE"]
EVENT_ORDER = STATE + ["X-STAVE-ID", "DTSTART", "DTEND", "SUMMARY", "DESCRIPTION", "LOCATION",
                       "URL", "STATUS", "TRANSP"]
EVENT_OPTIONAL = {"X-STAVE-ID", "DESCRIPTION", "LOCATION", "URL"}
CALENDAR_ORDER = ["VERSION", "PRODID", "CALSCALE", "NAME", "X-WR-CALNAME", "DESCRIPTION",
                  "X-WR-CALDESC", "REFRESH-INTERVAL", "X-PUBLISHED-TTL", "COLOR",
                  "X-STAVE-FORMAT"]
TEXTS = {"NAME", "X-WR-CALNAME", "DESCRIPTION", "X-WR-CALDESC", "SUMMARY", "LOCATION", "UID",
         "TZNAME"}
UTC = re.compile(r"\d{8}T\d{6}Z")
LOCAL = re.compile(r"\d{8}T\d{6}")
# Section 3.3.11: a backslash stands before backslash, semicolon, comma or n only,
# and semicolon and comma never without one.
TEXT_VALUE = re.compile(r"(?:[^\\;,]|\\[\\;,nN])*")
# Section 3.3.13 and RFC 3986: a URI's own signs, with a scheme and nothing escaped.
URI_VALUE = re.compile(r"[a-z]+://[A-Za-z0-9._~:/?#\[\]@!$&'()*+,;=%-]+", re.IGNORECASE)

# Section 3.8.2.7: what does not take place takes no time.
STANDINGS = {("CONFIRMED", "OPAQUE"), ("CANCELLED", "TRANSPARENT")}


def octet_complaints(feed):
    """Section 3.1: lines end in CR LF and have at most 75 octets; no controls."""
    if not feed.endswith(b"\r\n"):
        yield "the last line does not end in CR LF"
    for number, line in enumerate(feed[:-2].split(b"\r\n"), 1):
        if len(line) > 75:
            yield f"line {number} has {len(line)} octets"
        if not line:
            yield f"line {number} is empty"
        try:
            text = line.decode("utf-8")
        except UnicodeDecodeError:
            yield f"line {number} is no UTF-8, or its fold cuts a character"
            continue
        if re.search("[\x00-\x1f\x7f-\x9f\u2028\u2029]", text):
            yield f"line {number} holds a control character or a line separator"


def unfold(feed):
    return re.sub(r"\r\n[ \t]", "", feed.decode("utf-8", "replace")).split("\r\n")[:-1]


def split_line(line):
    """Name, parameters and value. Our parameters have no quotes."""
    head, _, value = line.partition(":")
    name, *parameters = head.split(";")
    return name, dict(part.split("=", 1) for part in parameters), value


def read_tree(lines, complaints):
    """Components as (name, properties, children), nested as BEGIN and END say."""
    root = ("", [], [])
    stack = [root]
    for line in lines:
        name, parameters, value = split_line(line)
        if name == "BEGIN":
            stack.append((value, [], []))
            stack[-2][2].append(stack[-1])
        elif name == "END":
            if len(stack) == 1 or stack[-1][0] != value:
                complaints.append(f"END:{value} closes nothing")
                return root
            stack.pop()
        else:
            stack[-1][1].append((name, parameters, value))
    if len(stack) > 1:
        complaints.append(f"{stack[-1][0]} is never closed")
    return root


def order_complaints(where, properties, order, optional=frozenset()):
    names = [name for name, _, _ in properties]
    wanted = [name for name in order if name in names or name not in optional]
    if names != wanted:
        yield f"{where}: {names} instead of {wanted}"


def value_complaints(where, properties):
    for name, _, value in properties:
        if name in TEXTS and not TEXT_VALUE.fullmatch(value):
            yield f"{where}: {name} is badly escaped: {value!r}"
        if name == "URL" and not URI_VALUE.fullmatch(value):
            yield f"{where}: no URI: {value!r}"


def time_complaints(where, event, zones):
    """DTSTART and DTEND have one form, and a TZID has its VTIMEZONE."""
    (_, start_parameters, start), (_, end_parameters, end) = event["DTSTART"], event["DTEND"]
    if start_parameters != end_parameters:
        yield f"{where}: start and end are in different zones"
    if not any(form.fullmatch(start) and form.fullmatch(end) for form in (UTC, LOCAL)):
        yield f"{where}: start {start} and end {end} have different or wrong forms"
    tzid = start_parameters.get("TZID")
    if tzid is not None and (tzid not in zones or start.endswith("Z")):
        yield f"{where}: TZID {tzid} has no VTIMEZONE, or the time is UTC"
    if set(start_parameters) - {"TZID"}:
        yield f"{where}: parameters {start_parameters}"


def event_complaints(properties, zones):
    event = {name: (name, parameters, value) for name, parameters, value in properties}
    where = event.get("UID", ("", {}, "an event without UID"))[2]
    before = list(order_complaints(where, properties, EVENT_ORDER, EVENT_OPTIONAL))
    yield from before
    if before:
        return
    yield from value_complaints(where, properties)
    yield from time_complaints(where, event, zones)
    for name in ("DTSTAMP", "CREATED", "LAST-MODIFIED"):
        if not UTC.fullmatch(event[name][2]):
            yield f"{where}: {name} is no UTC time"
    if (event["STATUS"][2], event["TRANSP"][2]) not in STANDINGS:
        yield f"{where}: {event['STATUS'][2]} and {event['TRANSP'][2]}"
    if event["DTSTAMP"][2] != event["LAST-MODIFIED"][2]:
        yield f"{where}: DTSTAMP and LAST-MODIFIED differ"
    if not re.fullmatch(r"[A-Za-z0-9.-]+@[a-z.]+", where):
        yield f"{where}: an odd UID"
    if "\\n" in event["SUMMARY"][2].replace("\\\\", ""):
        yield f"{where}: SUMMARY has several lines"


def zone_complaints(zone):
    """Section 3.6.5: each part needs DTSTART, TZOFFSETFROM and TZOFFSETTO."""
    _, properties, parts = zone
    where = properties[0][2] if properties else "a VTIMEZONE without TZID"
    if [name for name, _, _ in properties] != ["TZID"]:
        yield f"{where}: not the TZID alone"
    if [part[0] for part in parts] not in (["STANDARD"], ["STANDARD", "DAYLIGHT"]):
        yield f"{where}: parts {[part[0] for part in parts]}"
    for name, part, children in parts:
        rule = ["RRULE"] if len(parts) == 2 else []
        order = ["DTSTART", *rule, "TZOFFSETFROM", "TZOFFSETTO", "TZNAME"]
        yield from order_complaints(f"{where} {name}", part, order)
        for _, _, value in (entry for entry in part if entry[0].startswith("TZOFFSET")):
            if not re.fullmatch(r"[+-]\d{4}(\d\d)?", value) or value == "-0000":
                yield f"{where}: offset {value}"
        if children:
            yield f"{where} {name}: holds components"


def check(feed):
    complaints = list(octet_complaints(feed))
    root = read_tree(unfold(feed), complaints)
    if [child[0] for child in root[2]] != ["VCALENDAR"] or root[1]:
        return complaints + ["not one VCALENDAR"]
    _, properties, children = root[2][0]
    complaints += order_complaints("VCALENDAR", properties, CALENDAR_ORDER)
    complaints += value_complaints("VCALENDAR", properties)
    kinds = [child[0] for child in children]
    if kinds != sorted(kinds, reverse=True) or set(kinds) - {"VTIMEZONE", "VEVENT"}:
        complaints.append("zones do not stand before events, or there are other components")
    zones = [child for child in children if child[0] == "VTIMEZONE"]
    events = [child for child in children if child[0] == "VEVENT"]
    names = [zone[1][0][2] for zone in zones if zone[1]]
    for zone in zones:
        complaints += zone_complaints(zone)
    for _, event, nested in events:
        complaints += event_complaints(event, names)
        if nested:
            complaints.append("an event holds components")
    uids = [value for _, event, _ in events for name, _, value in event if name == "UID"]
    if len(set(uids)) != len(uids) or len(set(names)) != len(names) or not events:
        complaints.append("UIDs or TZIDs come twice, or there is no event")
    used = {parameters.get("TZID") for _, event, _ in events for _, parameters, _ in event}
    complaints += [f"VTIMEZONE {name} is not used" for name in names if name not in used]
    return complaints
