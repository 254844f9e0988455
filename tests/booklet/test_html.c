#include "booklet/html.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/fault.h"
#include "base/file.h"
#include "booklet/html_picture.h"
#include "booklet/html_text.h"
#include "booked.h"

#define LINE_MOST 1024

static int shell(const char *line) {
    const int status = system(line);
    cr_assert(WIFEXITED(status), "%s", line);
    return WEXITSTATUS(status);
}

static void write_file(const Booked *b, char path[64]) {
    Fault fault;
    fault_init(&fault);
    snprintf(path, 64, "/tmp/rebato-html-%d.html", (int)getpid());
    cr_assert(file_write(path, b->html.data, b->html.length, &fault), "%s", fault.message);
    fault_finish(&fault);
}

// libxml2 (from memory: in a file it trips over the ends of its own buffer) reads HTML 4, so that the
// elements and drawings of HTML 5 are news to it; all else is an error. HTML Tidy, where it is installed,
// knows HTML 5 but takes no unit in the size of a drawing and no name on its title.
static void is_valid(const Booked *b, const char *name) {
    char path[64], line[LINE_MOST];
    write_file(b, path);
    snprintf(
        line, sizeof line,
        "! xmllint --memory --html --noout --huge %s 2>&1 | grep -E 'error' | grep -vE 'Tag [a-z]+ invalid'",
        path);
    cr_expect_eq(shell(line), 0, "%s", name);
    snprintf(line, sizeof line,
             "! command -v tidy >/dev/null || ! tidy -q -e %s 2>&1 | grep -vE "
             "'<svg> attribute \"(width|height)\"|<title> proprietary attribute \"id\"'",
             path);
    cr_expect_eq(shell(line), 0, "%s", name);
    unlink(path);
}

static int times(const char *text, const char *part) {
    int count = 0;
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        count++;
    return count;
}

// Every id once, and every link inside the file leads to one.
static void is_linked(const Booked *b) {
    const char *html = b->html.data;
    char wanted[256];
    for (const char *at = strstr(html, " id=\""); at; at = strstr(at + 1, " id=\"")) {
        snprintf(wanted, sizeof wanted, "%.*s\"", (int)(5 + strcspn(at + 5, "\"")), at);
        cr_expect_eq(times(html, wanted), 1, "%s", wanted);
    }
    for (const char *at = strstr(html, "href=\"#"); at; at = strstr(at + 1, "href=\"#")) {
        snprintf(wanted, sizeof wanted, " id=\"%.*s\"", (int)strcspn(at + 7, "\""), at + 7);
        cr_expect_geq(times(html, wanted), 1, "%s", wanted);
    }
}

// Nothing that runs, and nothing that is fetched.
static void is_closed(const Booked *b) {
    static const char *const never[] = {
        "<script", "<iframe",        "<object", "<embed", "<link",  "<form",       "<base",
        "@import", "<foreignObject", "<use",    "xlink:", "srcset", "javascript:", "http-equiv=\"refresh"};
    for (size_t i = 0; i < sizeof never / sizeof *never; i++)
        has_not(b, never[i]);
    const char *style = strstr(b->html.data, "<style>"), *url = strstr(style, "url(");
    cr_expect(!url || url > strstr(style, "</style>"));
    has_not(b, " style=");
    for (const char *at = strstr(b->html.data, " src=\""); at; at = strstr(at + 1, " src=\""))
        cr_expect(strncmp(at + 6, "data:image/", 11) == 0, "%.80s", at);
    for (const char *at = strstr(b->html.data, " on"); at; at = strstr(at + 1, " on")) {
        const size_t letters = strspn(at + 3, "abcdefghijklmnopqrstuvwxyz");
        cr_expect(letters == 0 || strncmp(at + 3 + letters, "=\"", 2) != 0, "%.60s", at);
    }
}

Test(html, a_strangers_recipe_puts_no_script_and_no_request_into_the_file) {
    Booked b;
    booked(TRIAL("hostile.md"), NULL, NULL, NULL, &b);
    is_closed(&b);
    is_valid(&b, "hostile");
    is_linked(&b);
    has(&b, "&lt;script src=&quot;https://example.org/x.js&quot;&gt;");
    has(&b, "&lt;iframe");
    has(&b, "&lt;/script&gt;&lt;script&gt;alert(4)&lt;/script&gt;");
    has(&b, "Square &amp; &lt;i&gt;co&lt;/i&gt;");
    has(&b, "href=\"https://example.org/?a=1&amp;b=2\"");
    has(&b, "<a href=\"#trace-it-onloadalert5\">");
    booked_finish(&b);
}

Test(html, all_of_commonmark_is_written) {
    Booked b;
    booked(TRIAL("commonmark.md"), NULL, NULL, NULL, &b);
    is_closed(&b);
    is_valid(&b, "commonmark");
    is_linked(&b);
    cr_expect_eq(times(b.html.data, "<img alt="), 3);
    has(&b, "<img alt=\"A stand\" width=\"24\" height=\"18\" src=\"data:image/png;base64,iVBORw0KGgo");
    has(&b, "src=\"data:image/jpeg;base64,/9j/");
    has(&b, "<em>em</em> <strong>strong</strong> <code>code</code> <a href=\"https://example.org\"");
    has(&b, "line<br>break and a * star, &amp; an entity \u20AC.");
    has(&b, "<pre><code>indented code &lt;b&gt;\n</code></pre>");
    has(&b, "<span class=\"value\">\u206610.0\u00A0cm\u2069</span></td>");
    has(&b, "<hr>");
    booked_finish(&b);
}

// Relative luminance and contrast of WCAG 2.1; 4.5 to 1 is what it asks of body text (1.4.3).
static double luminance(const char *hex) {
    unsigned parts[3] = {0};
    const bool shortened = strspn(hex + 1, "0123456789abcdef") == 3;
    for (int i = 0; i < 3; i++) {
        char digits[3] = {hex[shortened ? 1 + i : 1 + 2 * i], hex[shortened ? 1 + i : 2 + 2 * i], '\0'};
        parts[i] = (unsigned)strtoul(digits, NULL, 16);
    }
    double sum = 0;
    static const double weights[] = {0.2126, 0.7152, 0.0722};
    for (int i = 0; i < 3; i++) {
        const double c = parts[i] / 255.0;
        sum += weights[i] * (c <= 0.03928 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4));
    }
    return sum;
}

static double contrast(const char *scheme, const char *one, const char *other) {
    char name[32];
    double light[2];
    const char *const names[] = {one, other};
    for (int i = 0; i < 2; i++) {
        snprintf(name, sizeof name, "--%s: #", names[i]);
        const char *at = strstr(scheme, name);
        cr_assert(at, "%s", name);
        light[i] = luminance(at + strlen(name) - 1);
    }
    return (fmax(light[0], light[1]) + 0.05) / (fmin(light[0], light[1]) + 0.05);
}

Test(html, every_ink_can_be_read_on_every_ground) {
    static const char *const inks[] = {"ink", "pale", "link", "note", "caution", "failed"};
    Booked b;
    booked(TRIAL("no-steps.md"), NULL, NULL, NULL, &b);
    const char *light = strstr(b.html.data, ":root {"), *dark = strstr(light + 1, ":root {");
    const char *print = strstr(dark + 1, ":root {");
    const char *const schemes[] = {light, dark, print};
    for (int i = 0; i < 3; i++)
        for (size_t k = 0; k < sizeof inks / sizeof *inks; k++) {
            cr_expect_geq(contrast(schemes[i], inks[k], "paper"), 4.5, "%s in scheme %d", inks[k], i);
            cr_expect_geq(contrast(schemes[i], inks[k], "shade"), 4.5, "%s on shade in scheme %d", inks[k],
                          i);
        }
    booked_finish(&b);
}

// RFC 4648, section 10, by way of a picture whose bytes coreutils encode again.
Test(html, pictures_are_whole_in_base64) {
    Booked b;
    booked(TRIAL("commonmark.md"), NULL, NULL, NULL, &b);
    char path[64], line[LINE_MOST];
    write_file(&b, path);
    snprintf(line, sizeof line,
             "grep -o 'image/png;base64,[^\"]*' %s | head -1 | sed 's/.*,//' | base64 -d | cmp - %s", path,
             TESTS_DIR "/booklet/recipes/pictures/stand.png");
    cr_expect_eq(shell(line), 0);
    unlink(path);
    booked_finish(&b);
}

#define SIZE_MOST \
    (320 * 1024) // bytes: half a minute on a slow line, and an attachment that any mailbox takes

static void check_html(const char *name, const Booked *b) {
    cr_expect_lt(b->html.length, SIZE_MOST, "%s", name);
    is_valid(b, name);
    is_closed(b);
    is_linked(b);
    cr_expect_eq(times(b->html.data, "<svg"), times(b->html.data, "role=\"img\""), "%s", name);
}

Test(html, every_recipe_of_the_shelf_is_valid_and_closed, .timeout = 300) {
    booked_each(check_html);
}

Test(html, the_same_booklet_is_the_same_bytes) {
    Booked one, other;
    booked("flat/peter-pan", NULL, NULL, NULL, &one);
    booked("flat/peter-pan", NULL, NULL, NULL, &other);
    cr_expect_eq(one.html.length, other.html.length);
    cr_expect_eq(memcmp(one.html.data, other.html.data, one.html.length), 0);
    booked_finish(&one);
    booked_finish(&other);
}

Test(html, what_no_text_may_hold_is_left_out) {
    Buffer out;
    buffer_init(&out);
    html_add_text(&out, "a\x01\x7F\xC2\x85\xEF\xBF\xBE<&>\"'\xFF");
    cr_expect_str_eq(out.data, "a&lt;&amp;&gt;&quot;&#39;\xEF\xBF\xBD");
    buffer_finish(&out);
}

static void is_written(const char *text, unsigned style, const char *wanted) {
    Buffer out;
    buffer_init(&out);
    Span span = {.style = style, .text = text};
    html_add_spans(&out, (SpanList){.items = &span, .count = 1});
    cr_expect_str_eq(out.data, wanted);
    buffer_finish(&out);
}

Test(html, a_number_stays_on_the_line_of_its_unit) {
    is_written("by 0.3 cm.", 0, "by 0.3\u00A0cm.");
    is_written("16,9 cm \u00D7 7 5/16 in", 0, "16,9\u00A0cm \u00D7 7\u00A05/16\u00A0in");
    is_written("\u00AB\u202F3,9 cm\u202F\u00BB, 40 cm\u00B2, 5 %", 0,
               "\u00AB\u202F3,9\u00A0cm\u202F\u00BB, 40\u00A0cm\u00B2, 5\u00A0%");
    is_written("2 \u00E9t\u00E9s, 3 inner marks, a cm", 0, "2 \u00E9t\u00E9s, 3 inner marks, a cm");
    is_written("x = 3 cm", SPAN_CODE, "<code>x = 3 cm</code>");
}

Test(html, huge_prose_is_woven, .timeout = 60) {
    char path[64];
    Buffer text;
    Fault fault;
    fault_init(&fault);
    buffer_init(&text);
    buffer_add_text(&text, "# Long\n\n```lua\nA = 1*cm\n```\n\n");
    for (int i = 0; i < 9000; i++)
        buffer_add_format(
            &text, "%s%d. A line of *prose* that goes on, number %d, with `code` and [a link](#long).\n\n",
            i % 60 == 0 ? "## Step\n\n" : "", i, i);
    snprintf(path, sizeof path, "/tmp/rebato-long-%d.md", (int)getpid());
    cr_assert(file_write(path, text.data, text.length, &fault), "%s", fault.message);
    Booked b;
    booked(path, NULL, NULL, NULL, &b);
    has(&b, "number 8999,");
    is_linked(&b);
    unlink(path);
    booked_finish(&b);
    buffer_finish(&text);
}

Test(html, where_nothing_can_be_drawn_the_words_of_the_picture_stand) {
    Pattern pattern;
    Buffer html;
    pattern_init(&pattern);
    buffer_init(&html);
    const Book book = {.pictures = pictures_new(&pattern), .language = language_english()};
    const BookPicture picture = {.kind = BOOK_PICTURE_ALL, .alt = "All pieces <together>"};
    html_picture(&book, &picture, 1, &html);
    cr_expect_str_eq(html.data, "<em>All pieces &lt;together&gt;</em>\n");
    pictures_free(book.pictures);
    buffer_finish(&html);
    pattern_finish(&pattern);
}
