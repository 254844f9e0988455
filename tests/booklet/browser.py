"""Weaves some booklets and opens them in a real browser, as a reader on a phone does, in the dark, and at the printer: browser.py REBATO TESTS

Ends with 1 when something is wrong and says what, with 77 where there is no browser. Every check names what asks for it: WCAG is the Web
Content Accessibility Guidelines of the W3C, by the numbers of its success criteria."""

import base64
import collections
import concurrent.futures
import pathlib
import re
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True
import webdriver

sys.path.append("/usr/lib/python3/dist-packages")  # of Debian, where another Python stands before its own
try:
    import html5lib
except ImportError:
    html5lib = None

PHONE, PHONE_TALL, NARROWEST, DESK = 360, 800, 320, 1280  # CSS px; 320 is that of WCAG 2.1, 1.4.10
SMALLEST_WORD = 9.5  # CSS px, on the phone
PAPERS = {"A4": (210, 297), "Letter": (215.9, 279.4)}
MARGIN = (18, 16)  # mm, top and sides, as the style has it
DARK_PAGE = 0.5  # of white: a printed page is lighter
POINTS = 40  # dots to the inch at which pages are looked at

# WCAG 2.1, 1.4.12, word for word: lines, letters, words, and the space after a paragraph.
SPACING = "* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important; } p { margin-bottom: 2em !important; }"

BOOKS = {
    "peter-pan": ["flat/peter-pan"],
    "wing": ["bands/wing", "--with-code"],
    "failed proof": ["bands/funnel", "--set", "opening=none"],
    "cautions": ["necklines/slit", "--set", "age=5 years", "--set", "slit=23cm"],
    "block": ["blocks/close-fitting", "--units", "in"],
    "German": ["booklet/recipes/kragen.md"],
    "Arabic": ["booklet/recipes/commonmark.md"],
    "hostile": ["booklet/recipes/hostile.md"],
}

SCRIPT = (pathlib.Path(__file__).parent / "in_page.js").read_text()


def weave(rebato, tests, folder, name, words):
    recipe = str(tests / words[0]) if words[0].endswith(".md") else words[0]
    path = folder / (name.replace(" ", "-") + ".html")
    ran = subprocess.run([rebato, "weave", recipe, *words[1:], "-o", path], capture_output=True, text=True, check=False)
    if not path.exists():
        sys.exit(f"browser: {' '.join(words)} was not woven: {ran.stdout}{ran.stderr}")
    return path


def parse_errors(path):
    """Those of the parser of the HTML Living Standard, 13.2, as html5lib has it."""
    if html5lib is None:
        return []
    parser = html5lib.HTMLParser()
    parser.parse(path.read_bytes(), transport_encoding="utf-8")
    return [f"line {place[0]}: {code}" for place, code, _ in parser.errors]


def ask(browser, check, *arguments):
    return browser.run(f"{SCRIPT}\nreturn checks.{check}(...arguments);", *arguments)


def tree_faults(browser):
    """What is told to those who hear the page: ARIA 1.2, 5.2.8 (names); WCAG 2.1, 1.1.1 (pictures), 2.4.4 (links), 4.1.2."""
    browser.devtools("Accessibility.enable")
    nodes = [node for node in browser.devtools("Accessibility.getFullAXTree")["nodes"] if not node["ignored"]]
    roles = {node["nodeId"]: node["role"]["value"] for node in nodes}
    named = collections.defaultdict(list)
    faults = []
    for node in nodes:
        role, name = roles[node["nodeId"]], node.get("name", {}).get("value", "").strip()
        named[role].append(name)
        if role in ("image", "link", "heading", "navigation", "region", "group", "columnheader", "rowheader") and not name:
            faults.append(f"a {role} has no name")
        if role == "listitem" and roles.get(node["parentId"]) != "list":
            faults.append(f'the item "{name}" is in no list')
    for name, times in collections.Counter(named["image"]).items():
        if times > 1:
            faults.append(f'{times} pictures are called "{name}"')
        if len(name) < 4:
            faults.append(f'a picture is only called "{name}"')
    drawn = browser.run("return document.querySelectorAll('svg, img').length")
    if drawn != len(named["image"]):
        faults.append(f"{drawn} pictures, of which {len(named['image'])} are told")
    for role in ("main", "navigation", "heading"):
        if not named[role]:
            faults.append(f"there is no {role}")
    browser.devtools("Accessibility.disable")
    return faults


def label_faults(browser):
    """The same from the endpoints of W3C WebDriver, 12.4.9 and 12.4.10, on the first figures."""
    faults = []
    for element in browser.find("figure svg")[:3]:
        role, label = browser.role(element), browser.label(element)
        if role not in ("img", "image") or not label:
            faults.append(f'a figure is of the role {role} and called "{label}"')
    return faults


def pages_of(folder, pdf):
    """The words of each page, and each page as rows of grey (Netpbm P5)."""
    path = folder / "printed.pdf"
    path.write_bytes(pdf)
    text = subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True).stdout.decode()
    grey = subprocess.run(["pdftoppm", "-gray", "-r", str(POINTS), path], capture_output=True, check=True).stdout
    pictures = []
    while grey:
        head = re.match(rb"P5\s+(\d+)\s+(\d+)\s+255\s", grey)
        size = int(head[1]) * int(head[2])
        pictures.append(grey[head.end():head.end() + size])
        grey = grey[head.end() + size:]
    return text.split("\f")[:-1], pictures


def print_faults(browser, folder):
    """Of this project: no page is blank or dark, and no figure, row, notice or heading is parted from its own by the end of a page."""
    pairs = browser.run(f"{SCRIPT}\nreturn marks.place();")
    faults = []
    for paper, (width, height) in PAPERS.items():
        pdf = browser.devtools("Page.printToPDF", paperWidth=width / 25.4, paperHeight=height / 25.4, printBackground=True)
        texts, pictures = pages_of(folder, base64.b64decode(pdf["data"]))
        where = {}
        for number, text in enumerate(texts, start=1):
            for mark in re.findall(r"qz\d+[ab]", text.lower()):
                where.setdefault(mark, number)
        for first, last, told in pairs:
            if first not in where or last not in where:
                faults.append(f"{paper}: {told} is not printed whole")
            elif where[first] != where[last]:
                faults.append(f"{paper}: {told} begins on page {where[first]} and ends on page {where[last]}")
        for number, picture in enumerate(pictures, start=1):
            if min(picture) > 200:
                faults.append(f"{paper}: page {number} is blank")
            if sum(picture) < DARK_PAGE * 255 * len(picture):
                faults.append(f"{paper}: page {number} is dark")
    return faults


def paper_faults(browser):
    """As it will be printed: the colours of daylight and the scale of each drawing."""
    browser.media("dark", "print")
    faults = []
    for width, _ in PAPERS.values():
        browser.screen(round((width - 2 * MARGIN[1]) * 96 / 25.4), DESK)
        faults += ask(browser, "true_scale") + ask(browser, "contrast")
    return faults


def spread_faults(browser):
    """WCAG 2.1, 1.4.12 at the narrowest, and 1.4.4: words twice as large at twice the width."""
    browser.run("const s = document.createElement('style'); s.id = 'spread'; s.textContent = arguments[0]; document.head.append(s);", SPACING)
    faults = ask(browser, "reflow")
    browser.run("document.getElementById('spread').textContent = ':root { font-size: 200% }';")
    browser.screen(2 * NARROWEST, PHONE_TALL)
    faults += ask(browser, "reflow")
    browser.run("document.getElementById('spread').remove();")
    return faults


def look_at(browser, path, folder):
    found = [("HTML Living Standard, 13.2", parse_errors(path))]

    def add(source, faults):
        found.append((source, faults))

    browser.media("light")
    browser.screen(PHONE, PHONE_TALL)
    browser.open(path.as_uri())
    add("Content Security Policy 3", ask(browser, "closed"))
    add("WCAG 2.1, 1.3.1, 2.4, 3.1", ask(browser, "outline"))
    add("HTML Living Standard, 4", ask(browser, "parts"))
    add("WCAG 2.1, 2.4.7", ask(browser, "focus"))
    add("ARIA 1.2 and WCAG 2.1, 1.1.1", tree_faults(browser) + label_faults(browser))
    add("a phone", ask(browser, "drawings", SMALLEST_WORD))
    for scheme in ("light", "dark"):
        browser.media(scheme)
        add(f"WCAG 2.1, 1.4.3 and 1.4.11, {scheme}", ask(browser, "contrast"))
    for width in (NARROWEST, PHONE, DESK):
        browser.screen(width, PHONE_TALL)
        add(f"WCAG 2.1, 1.4.10, {width} px", ask(browser, "reflow"))
    browser.screen(NARROWEST, PHONE_TALL)
    add("WCAG 2.1, 1.4.12 and 1.4.4", spread_faults(browser))
    add("paper", paper_faults(browser))
    browser.media("dark")
    add("print", print_faults(browser, folder))
    add("what the browser complained of", [line["message"] for line in browser.log() if "'script-src'" not in line["message"]])
    return found


def main():
    rebato, tests = sys.argv[1], pathlib.Path(sys.argv[2])
    if webdriver.missing():
        print(f"browser: {webdriver.missing()} is not installed, so no page was looked at; scripts/setup test installs it")
        sys.exit(77)
    wrong = 0
    with tempfile.TemporaryDirectory(prefix="rebato-pages-") as made:
        folder = pathlib.Path(made)
        with concurrent.futures.ThreadPoolExecutor(2) as pool, webdriver.browser() as browser:
            books = {name: pool.submit(weave, rebato, tests, folder, name, words) for name, words in BOOKS.items()}
            for name, path in books.items():
                for source, faults in look_at(browser, path.result(), folder):
                    for fault in faults:
                        print(f"{name}: {fault} ({source})")
                    wrong += len(faults)
    print(f"browser: {len(BOOKS)} booklets looked at, {wrong} faults" + ("" if html5lib else "; html5lib is not here, so none was parsed strictly"))
    sys.exit(1 if wrong else 0)


main()
