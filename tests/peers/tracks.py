"""Reads and writes SubRip with pysubs2."""

import json
import sys

import pysubs2

problem = json.load(sys.stdin)


def read(text):
    try:
        # Tags and blanks as they stand in the file.
        file = pysubs2.SSAFile.from_string(text, format_="srt", keep_unknown_html_tags=True)
    except Exception as error:
        return {"error": f"{type(error).__name__}: {error}", "cues": []}
    cues = [{"from": e.start, "to": e.end, "text": e.plaintext} for e in file.events]
    return {"error": None, "cues": cues}


def write(cues):
    file = pysubs2.SSAFile()
    for cue in cues:
        event = pysubs2.SSAEvent(start=cue["from"], end=cue["to"])
        event.plaintext = cue["text"]
        file.events.append(event)
    return file.to_string("srt")


print(
    json.dumps(
        {
            "read": [read(text) for text in problem["read"]],
            "written": [write(cues) for cues in problem["write"]],
        }
    )
)
