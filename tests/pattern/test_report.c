#include "pattern/report.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "pattern/prove.h"
#include "sample.h"

static void ask(const char *file, const char *question, const char *wanted) {
    char command[512], answer[256] = "";
    snprintf(command, sizeof command, "jq -r '%s' %s", question, file);
    FILE *pipe = popen(command, "r");
    cr_assert_not_null(pipe);
    cr_assert_not_null(fgets(answer, sizeof answer, pipe), "%s", question);
    cr_assert_eq(pclose(pipe), 0, "%s", question);
    answer[strcspn(answer, "\n")] = '\0';
    cr_assert_str_eq(answer, wanted, "%s: %s", question, answer);
}

// Read by jq, a general-purpose JSON reader.
Test(report, it_is_json_of_the_agreed_shape) {
    Pattern pattern;
    Buffer json;
    sample_pattern(&pattern);
    pattern_prove(&pattern, NULL, 0, NULL);
    buffer_init(&json);
    pattern_report_json(&pattern, &json);
    char file[] = "/tmp/rebato-report-XXXXXX";
    const int handle = mkstemp(file);
    cr_assert_geq(handle, 0);
    cr_assert_eq(write(handle, json.data, json.length), (ssize_t)json.length);
    close(handle);
    ask(file, ".recipe", "collars/sample-funnel");
    ask(file, ".holds", "true");
    ask(file, ".values | tojson", "{\"sample.bust\":880,\"quarter\":140,\"diagonal\":197.9899}");
    ask(file, ".pieces | length", "2");
    ask(file, ".pieces[0].name", "Front funnel");
    ask(file, ".pieces[0].cut", "1");
    ask(file, ".pieces[0].cloth", "self");
    ask(file, ".pieces[0].area", "95200");
    ask(file, ".pieces[0].bounds | tojson", "[339.4113,339.4113]");
    ask(file, ".pieces[0].grain", "45");
    ask(file, ".pieces[0].true_bias", "true");
    ask(file, ".pieces[0].edges[1] | tojson",
        "{\"name\":\"side\",\"length\":100,\"allowance\":10,\"fold\":false}");
    ask(file, ".pieces[0].notches[0] | tojson",
        "{\"edge\":\"side\",\"at\":50,\"count\":1,\"seam\":\"left side\"}");
    ask(file, ".pieces[0].outline | length", "8");
    ask(file, ".pieces[0].outline[0] | tojson", "[0,-140]");
    ask(file, ".pieces[0].cut_outline | length > 5", "true");
    ask(file, ".seams[0] | tojson",
        "{\"name\":\"left side\",\"lengths\":[100,100],\"ease\":0,\"difference\":0,\"holds\":true}");
    ask(file,
        "[.proofs[] | select(.what == \"the funnel passes over the head\")][0] | [.found, .wanted, .holds] | "
        "tojson",
        "[564.6,560,true]");
    ask(file, "[.proofs[] | select(.what == \"label: Front funnel\")][0] | [.found, .wanted] | tojson",
        "[1,1]");
    ask(file, ".inputs[1].value", "seam");
    ask(file, ".inputs[2] | [.name, .value, .optional] | tojson", "[\"waist_girth\",null,true]");
    unlink(file);
    pattern_finish(&pattern);
    buffer_finish(&json);
}

Test(report, numbers_keep_a_ten_thousandth_and_texts_are_escaped) {
    Buffer out;
    buffer_init(&out);
    static const struct {
        double value;
        const char *text;
    } numbers[] = {{0, "0"},
                   {-0.00001, "0"},
                   {0.00005, "0.0001"},
                   {-1.5, "-1.5"},
                   {1e12, "1e+12"},
                   {NAN, "null"},
                   {140.00004, "140"},
                   {99999.9999, "99999.9999"},
                   {-0.0001, "-0.0001"},
                   {INFINITY, "null"},
                   {1234.56789, "1234.5679"}};
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        buffer_clear(&out);
        json_add_number(&out, numbers[i].value);
        cr_assert_str_eq(out.data, numbers[i].text);
    }
    buffer_clear(&out);
    json_add_text(&out, "a\"b\\c\nd\te\x7F\xC3\xA9\xFF");
    cr_assert_str_eq(out.data, "\"a\\\"b\\\\c\\nd\\u0009e\\u007f\xC3\xA9\xEF\xBF\xBD\"");
    buffer_finish(&out);
}
