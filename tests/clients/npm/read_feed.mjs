// Reads a feed with ical.js from standard input; writes its events as JSON: [[UID, event]].
import { readFileSync } from "node:fs";
import ICAL from "ical.js";

const calendar = new ICAL.Component(ICAL.parse(readFileSync(0, "utf8")));
for (const zone of calendar.getAllSubcomponents("vtimezone"))
  ICAL.TimezoneService.register(new ICAL.Timezone(zone));

// Seconds since 1970 where the zone is known; else the local time as it is written.
const moment = (time) =>
  time.zone === ICAL.Timezone.localTimezone ? time.toString() : time.toUnixTime();

const events = calendar.getAllSubcomponents("vevent").map((component) => {
  const event = new ICAL.Event(component);
  const text = (name) => component.getFirstPropertyValue(name)?.toString() ?? "";
  return [event.uid, {
    start: moment(event.startDate), end: moment(event.endDate), summary: text("summary"),
    description: text("description"), location: text("location"), url: text("url"),
    status: text("status"),
  }];
});
process.stdout.write(JSON.stringify(events));
