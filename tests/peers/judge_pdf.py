"""Opens PDF files with poppler: page boxes against known papers, fonts embedded, text that can be read back."""

import json
import re
import subprocess
import sys

# Papers in millimetres: ISO 216, ANSI/ASME Y14.1 Letter, and card stock sold by the inch.
PAPERS = {
    "A4": (210.0, 297.0),
    "A5": (148.0, 210.0),
    "A6": (105.0, 148.0),
    "Letter": (215.9, 279.4),
    "5 x 7 in": (127.0, 177.8),
    "4 x 6 in": (101.6, 152.4),
    "half letter": (139.7, 215.9),
}
POINT_MM = 25.4 / 72
# Writers round boxes to a hundredth of a point or so; half a millimetre is already another paper cutter.
NEAR_MM = 0.2


def run(*command):
    done = subprocess.run(command, capture_output=True, text=True)
    if done.returncode != 0:
        raise RuntimeError(f"{command[0]}: {done.stderr.strip()}")
    return done.stdout


def paper(width_mm, height_mm):
    for name, (short, long) in PAPERS.items():
        if abs(width_mm - short) < NEAR_MM and abs(height_mm - long) < NEAR_MM:
            return f"{name} portrait"
        if abs(width_mm - long) < NEAR_MM and abs(height_mm - short) < NEAR_MM:
            return f"{name} landscape"
    return None


def judge(file):
    findings = []

    def note(rule, where, message):
        findings.append({"file": file, "where": where, "rule": rule, "message": message})

    head = dict(re.findall(r"^([A-Za-z ]+):\s*(.*)$", run("pdfinfo", file), re.M))
    count = int(head["Pages"])
    if not head.get("Title"):
        note("title", "", "not said: a reader's list of files shows nothing")
    if head.get("Tagged") != "yes":
        note("tagged", "", "without tags a screen reader cannot follow it")
    if head.get("JavaScript") == "yes":
        note("javascript", "", "a sheet of paper needs no program")
    if head.get("Encrypted", "no") != "no":
        note("encrypted", "", "cannot be read by everybody")

    boxes = run("pdfinfo", "-box", "-f", "1", "-l", str(count), file)
    pages = []
    for number in range(1, count + 1):
        found = re.search(rf"^Page +{number} MediaBox:\s+([\d.-]+) +([\d.-]+) +([\d.-]+) +([\d.-]+)", boxes, re.M)
        left, bottom, right, top = map(float, found.groups())
        crop = re.search(rf"^Page +{number} CropBox:\s+([\d.-]+) +([\d.-]+) +([\d.-]+) +([\d.-]+)", boxes, re.M)
        if crop and crop.groups() != found.groups():
            note("box", f"page {number}", "is cropped to something other than its paper")
        width, height = (right - left) * POINT_MM, (top - bottom) * POINT_MM
        text = run("pdftotext", "-f", str(number), "-l", str(number), "-layout", file, "-")
        # Words whose own box leaves the page were cut by the edge.
        layout = run("pdftotext", "-f", str(number), "-l", str(number), "-bbox", file, "-")
        words = re.findall(r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>', layout)
        for x0, y0, x1, y1, word in words:
            if float(x0) < 0 or float(y0) < 0 or float(x1) > right - left or float(y1) > top - bottom:
                note("cut", f"page {number}", f"{word!r} runs over the edge of the paper")
        name = paper(width, height)
        if name is None:
            note("paper", f"page {number}", f"{width:.1f} x {height:.1f} mm is no paper that is sold")
        if not words:
            note("empty", f"page {number}", "no text on it")
        if "\ufffd" in text:
            note("text", f"page {number}", "holds characters that cannot be read back")
        pages.append({"width_mm": round(width, 2), "height_mm": round(height, 2), "paper": name, "words": len(words), "text": text})

    fonts = []
    for line in run("pdffonts", file).splitlines()[2:]:
        # name, type, encoding, emb, sub, uni, object and generation: read from the right.
        parts = line.split()
        embedded, unicode_map = parts[-5], parts[-3]
        fonts.append({"name": parts[0], "embedded": embedded == "yes", "unicode": unicode_map == "yes"})
        if embedded != "yes":
            note("font", parts[0], "is not embedded: another machine will print another face")
        if unicode_map != "yes":
            note("font", parts[0], "has no map back to characters: its text cannot be searched or read aloud")
    if not fonts:
        note("font", "", "no fonts at all")
    return findings, {"file": file, "title": head.get("Title", ""), "pages": pages, "fonts": fonts}


def main():
    files = sys.argv[1:]
    if not files:
        print("usage: judge_pdf.py FILE...", file=sys.stderr)
        return 2
    findings, documents = [], []
    for file in files:
        try:
            found, document = judge(file)
        except RuntimeError as error:
            found, document = [{"file": file, "where": "", "rule": "unreadable", "message": str(error)}], {"file": file, "pages": [], "fonts": []}
        findings += found
        documents.append(document)
    print(json.dumps({"judge": "pdf", "files": len(files), "findings": findings, "documents": documents}, ensure_ascii=False, indent=2))
    return 1 if findings else 0


if __name__ == "__main__":
    sys.exit(main())
