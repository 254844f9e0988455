// What a page can measure of itself, sent to the browser by browser.py. Each function returns sentences, one for
// each fault, and none where all is well. The page has no script of its own; this one is the test's.
"use strict";

const at = element => {
    const own = element.id ? "#" + element.id : element.classList.length ? "." + element.classList[0] : "";
    return `<${element.localName}${own}> "${element.textContent.trim().replace(/\s+/g, " ").slice(0, 40)}"`;
};
const all = selector => [...document.querySelectorAll(selector)];
const shown = element => element.checkVisibility() && element.getClientRects().length > 0;

const checks = {
    // WCAG 2.1, 1.3.1, 2.4.2, 2.4.6, 3.1.1, 3.1.2; HTML Living Standard, 3.2.6 (id, lang, dir) and 4.3 (headings);
    // ARIA 1.2, 5.3.4 (landmarks).
    outline() {
        const faults = [];
        const headings = all("h1, h2, h3, h4, h5, h6").filter(shown);
        if (headings.filter(h => h.localName === "h1").length !== 1) faults.push("there is not one h1");
        let before = 0;
        for (const heading of headings) {
            const level = Number(heading.localName[1]);
            if (level > before + 1) faults.push(`a level is skipped before ${at(heading)}`);
            if (!heading.textContent.trim()) faults.push(`${at(heading)} says nothing`);
            before = level;
        }
        if (!document.title.trim()) faults.push("there is no title");
        for (const selector of ["main", "nav"])
            if (all(selector).length !== 1) faults.push(`there is not one ${selector}`);
        for (const child of document.body.children)
            if (!["main", "footer"].includes(child.localName)) faults.push(`${at(child)} is in no landmark`);
        if (!document.documentElement.lang) faults.push("the page has no language");
        for (const element of all("[lang]")) {
            const locale = new Intl.Locale(element.lang), text = locale.getTextInfo?.() ?? locale.textInfo;
            if (getComputedStyle(element).direction !== text.direction && element.localName !== "svg")
                faults.push(`${at(element)} does not run as ${element.lang} does`);
        }
        const ids = new Set();
        for (const element of all("[id]")) {
            if (ids.has(element.id)) faults.push(`the id ${element.id} is there twice`);
            ids.add(element.id);
        }
        return faults;
    },

    // HTML Living Standard, 4.6.1 and 7.4.2.4 (fragments), 4.9.10 (scope), 4.4.5 to 4.4.8 (lists), 4.8.3 (alt).
    // WCAG 2.1, 1.3.1; 1.4.4 (the page may be zoomed); 2.4.3 (order of focus).
    parts() {
        const faults = [];
        for (const link of all("a")) {
            const to = link.getAttribute("href");
            if (!link.textContent.trim()) faults.push(`the link to ${to} has no name`);
            if (to.startsWith("#") && !document.getElementById(decodeURIComponent(to.slice(1))))
                faults.push(`the link to ${to} leads nowhere`);
        }
        for (const table of all("table")) {
            if (!table.querySelector("th")) faults.push(`${at(table)} has no heading`);
            const widths = new Set([...table.rows].map(row => row.cells.length));
            if (widths.size !== 1) faults.push(`the rows of ${at(table)} differ in length`);
        }
        for (const th of all("th"))
            if (!["col", "row"].includes(th.scope)) faults.push(`${at(th)} has no scope`);
        for (const list of all("ol, ul"))
            for (const child of list.children)
                if (child.localName !== "li") faults.push(`${at(child)} stands in a list`);
        for (const img of all("img")) {
            if (!img.alt.trim()) faults.push("a picture has no alt");
            if (!img.complete || img.naturalWidth === 0) faults.push(`the picture "${img.alt}" is not shown`);
        }
        for (const svg of all("svg"))
            if (svg.querySelectorAll("path, text").length === 0) faults.push(`${at(svg)} is empty`);
        for (const element of all("[tabindex]"))
            if (element.tabIndex > 0) faults.push(`${at(element)} is out of the order of focus`);
        const viewport = document.querySelector("meta[name=viewport]").content;
        if (/user-scalable|maximum-scale/.test(viewport)) faults.push("the page cannot be zoomed");
        return faults;
    },

    // WCAG 2.1, 2.4.7: what has the focus shows it. WCAG 2.2, 2.5.8: 24 CSS pixels for a finger, but for links in a
    // sentence.
    focus() {
        const faults = [];
        for (const element of all("a, [tabindex]").filter(shown)) {
            element.focus({ focusVisible: true, preventScroll: true });
            const style = getComputedStyle(element);
            if (document.activeElement !== element) faults.push(`${at(element)} takes no focus`);
            else if (style.outlineStyle === "none" || parseFloat(style.outlineWidth) < 1)
                faults.push(`${at(element)} does not show the focus`);
        }
        document.activeElement.blur();
        for (const link of all("nav a, footer a"))
            if (link.getBoundingClientRect().height < 24) faults.push(`${at(link)} is less than 24 px high`);
        return faults;
    },

    // WCAG 2.1, 1.4.3: 4.5 to 1 for words (3 to 1 would do for large ones); 1.4.11: 3 to 1 for lines of a drawing.
    contrast() {
        const parts = text => {
            const [r, g, b, a = 1] = text.match(/[\d.]+/g).map(Number);
            return { r, g, b, a };
        };
        const over = (ink, ground, alpha) => ({
            r: ink.r * alpha + ground.r * (1 - alpha),
            g: ink.g * alpha + ground.g * (1 - alpha),
            b: ink.b * alpha + ground.b * (1 - alpha),
        });
        const channel = c => (c <= 0.03928 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4);
        const luminance = c => 0.2126 * channel(c.r / 255) + 0.7152 * channel(c.g / 255) + 0.0722 * channel(c.b / 255);
        const ratio = (a, b) => {
            const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
            return (light + 0.05) / (dark + 0.05);
        };
        const fade = element => {
            let alpha = 1;
            for (let e = element; e; e = e.parentElement) alpha *= Number(getComputedStyle(e).opacity);
            return alpha;
        };
        const ground = element => {
            const above = [];
            for (let e = element; e; e = e.parentElement) above.unshift(parts(getComputedStyle(e).backgroundColor));
            return above.reduce((below, c) => over(c, below, c.a), { r: 255, g: 255, b: 255 });
        };
        const faults = [], seen = new Set();
        const expect = (element, ink, alpha, grounds, least) => {
            for (const under of grounds) {
                const found = ratio(over(ink, under, alpha), under);
                const key = `${element.localName}.${element.getAttribute("class")} ${found.toFixed(2)}`;
                if (found >= least || seen.has(key)) continue;
                seen.add(key);
                faults.push(`${at(element)} ${element.getAttribute("class")}: ${found.toFixed(2)} to 1, less than ${least}`);
            }
        };
        // Cloth in a drawing is a tint of the ink: words and lines lie on it or beside it.
        const is_tint = style => style.stroke === "none" && style.fill !== "none" && Number(style.opacity) < 0.2;
        for (const svg of all("svg").filter(shown)) {
            const grounds = [ground(svg)];
            for (const shape of svg.querySelectorAll("path")) {
                const style = getComputedStyle(shape);
                if (is_tint(style)) grounds.push(over(parts(style.fill), grounds[0], Number(style.opacity)));
            }
            for (const shape of svg.querySelectorAll("path, text")) {
                const style = getComputedStyle(shape);
                if (is_tint(style) || style.display === "none") continue;
                const words = shape.localName === "text", ink = words || style.stroke === "none" ? style.fill : style.stroke;
                expect(shape, parts(ink), fade(shape) * parts(ink).a, grounds, words ? 4.5 : 3);
            }
        }
        const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
        while (walker.nextNode()) {
            const element = walker.currentNode.parentElement;
            if (!walker.currentNode.data.trim() || element.closest("svg") || !shown(element)) continue;
            const ink = parts(getComputedStyle(element).color);
            expect(element, ink, fade(element) * ink.a, [ground(element)], 4.5);
        }
        return faults;
    },

    // WCAG 2.1, 1.4.10: nothing to be moved sideways but tables and code in boxes of their own, and those by key
    // too (2.1.1); 1.4.4 and 1.4.12 where the words are larger or wider.
    reflow() {
        const faults = [], page = document.scrollingElement;
        if (page.scrollWidth > page.clientWidth)
            faults.push(`the page is ${page.scrollWidth} px wide where there are ${page.clientWidth}`);
        for (const element of all("body *")) {
            if (element.scrollWidth <= element.clientWidth + 1 || element.closest("svg")) continue;
            const flow = getComputedStyle(element).overflowX;
            if (flow === "hidden" || flow === "clip") faults.push(`${at(element)} is cut off`);
            if (flow !== "auto" && flow !== "scroll") continue;
            if (!element.querySelector("table")) faults.push(`${at(element)} has to be moved sideways`);
            if (element.tabIndex < 0 || !element.ariaLabel) faults.push(`${at(element)} cannot be moved by key`);
        }
        return faults;
    },

    // Of this project: words of a drawing are inside it, and as large as small print (about 7 points) on a phone;
    // common practice, no source.
    drawings(least) {
        const faults = [];
        for (const svg of all("svg").filter(shown)) {
            const box = svg.getBoundingClientRect();
            const larger = box.width / svg.viewBox.baseVal.width * 25.4 / 96; // than at its scale
            for (const text of svg.querySelectorAll("text")) {
                if (getComputedStyle(text).display === "none") continue;
                const own = text.getBoundingClientRect(), by = 2 * Math.max(1, larger); // a J hangs over its place
                if (own.left < box.left - by || own.right > box.right + by || own.top < box.top - by || own.bottom > box.bottom + by)
                    faults.push(`${at(text)} leaves ${at(svg.querySelector("title") ?? svg)}`);
                const size = parseFloat(getComputedStyle(text).fontSize) * box.width / svg.viewBox.baseVal.width;
                if (size < least) faults.push(`${at(text)} is ${size.toFixed(1)} px high in ${at(svg.querySelector("title") ?? svg)}`);
            }
        }
        return faults;
    },

    // A drawing on paper keeps the scale that it states: a millimetre of it is 96 / 25.4 CSS pixels (CSS Values and
    // Units 4, 6.2).
    true_scale() {
        return all("figure svg").filter(svg => {
            const wanted = parseFloat(svg.getAttribute("width")) * 96 / 25.4;
            return Math.abs(svg.getBoundingClientRect().width - wanted) > 0.5;
        }).map(svg => `${at(svg.querySelector("title") ?? svg)} is not at its scale`);
    },

    // Nothing came from elsewhere or ran, and what is put into the page does not run either: the policy in its head
    // holds (Content Security Policy Level 3).
    closed() {
        const faults = performance.getEntriesByType("resource").filter(entry => !entry.name.startsWith("data:"))
            .map(entry => `${entry.name} was asked for`);
        for (const element of all("script, iframe, object, embed, link, form, base, foreignObject, use, animate, set"))
            faults.push(`there is ${at(element)}`);
        for (const element of all("*"))
            for (const attribute of element.attributes) {
                if (/^on/i.test(attribute.name)) faults.push(`${at(element)} has ${attribute.name}`);
                if (/^\s*(javascript|vbscript|data):/i.test(attribute.value) && attribute.name === "href")
                    faults.push(`${at(element)} leads to ${attribute.value}`);
            }
        const script = document.createElement("script");
        script.textContent = "window.ran = true";
        document.body.append(script);
        script.remove();
        if (window.ran) faults.push("a script can run");
        return faults;
    },
};

const marks = {
    // Letters at the first and the last of what belongs on one page: they are looked for in the printed pages.
    place() {
        let count = 0;
        const pairs = [];
        for (const svg of all("figure svg")) {
            const box = svg.viewBox.baseVal, names = [`qz${++count}a`, `qz${count}b`];
            names.forEach((name, k) => {
                const text = document.createElementNS(svg.namespaceURI, "text");
                text.setAttribute("x", 0);
                text.setAttribute("y", k === 0 ? 2.5 : box.height - 0.5);
                text.setAttribute("font-size", 2);
                text.textContent = ` ${name} `;
                svg.append(text);
            });
            pairs.push([...names, at(svg.querySelector("title") ?? svg)]);
        }
        for (const heading of all("h2, h3, h4, h5, h6")) {
            const next = heading.nextElementSibling;
            if (!next || next.localName !== "p") continue;
            const names = [`qz${++count}a`, `qz${count}b`];
            heading.append(` ${names[0]} `);
            next.prepend(` ${names[1]} `);
            pairs.push([...names, at(heading)]);
        }
        for (const row of all("tr, .notice")) {
            const names = [`qz${++count}a`, `qz${count}b`];
            const cells = row.localName === "tr" ? row.cells : row.children;
            cells[0].prepend(` ${names[0]} `);
            cells[cells.length - 1].append(` ${names[1]} `);
            pairs.push([...names, at(row)]);
        }
        return pairs;
    },
};
