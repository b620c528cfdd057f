// Reads a calendar with ical.js (npm) and answers its events as JSON.

import { readFileSync } from "node:fs";
import ICAL from "ical.js";

const problem = JSON.parse(readFileSync(0, "utf8"));
const calendar = new ICAL.Component(ICAL.parse(problem.text));
const moment = (time) => {
  if (!time) return null;
  const plain = time.toString();
  return time.zone === ICAL.Timezone.utcTimezone && !plain.endsWith("Z") ? plain + "Z" : plain;
};
const events = calendar.getAllSubcomponents("vevent").map((event) => ({
  uid: event.getFirstPropertyValue("uid"),
  summary: event.getFirstPropertyValue("summary"),
  description: event.getFirstPropertyValue("description") ?? "",
  begins: moment(event.getFirstPropertyValue("dtstart")),
  ends: moment(event.getFirstPropertyValue("dtend")),
  alarms: event.getAllSubcomponents("valarm").length,
}));
console.log(JSON.stringify({ version: calendar.getFirstPropertyValue("version"), events, errors: [] }));
