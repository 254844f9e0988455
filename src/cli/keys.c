#include "cli/keys.h"

static const KeyRow rows[] = {
    {KEY_REPORT, "recipe", "text", "name of the recipe, as the list has it or as it was given"},
    {KEY_REPORT, "title", "text", "its title"},
    {KEY_REPORT, "body", "text", "name of the measurements; null when there are none"},
    {KEY_REPORT, "holds", "yes/no", "every proof holds or was accepted"},
    {KEY_REPORT, "values.NAME", "any unit", "a number the recipe named; RECIPE.NAME where another did"},
    {KEY_REPORT, "pieces[].name", "text", "name of the piece"},
    {KEY_REPORT, "pieces[].cut", "number", "how many to cut, at least 1"},
    {KEY_REPORT, "pieces[].pair", "yes/no", "half of them are turned over"},
    {KEY_REPORT, "pieces[].cloth", "text", "self, lining, interfacing, self and interfacing, or paper"},
    {KEY_REPORT, "pieces[].note", "text", "the line under its name; null when there is none"},
    {KEY_REPORT, "pieces[].area", "mm2", "inside the sewing line; of half where it lies on a fold"},
    {KEY_REPORT, "pieces[].bounds[]", "mm", "two: along the grain and across it, inside the sewing line"},
    {KEY_REPORT, "pieces[].grain", "degrees", "the lengthwise grain, counter-clockwise from the x axis"},
    {KEY_REPORT, "pieces[].grain_kind", "text", "none, along, across, bias or angle"},
    {KEY_REPORT, "pieces[].true_bias", "yes/no", "it is cut at 45 degrees to the grain"},
    {KEY_REPORT, "pieces[].edges[].name", "text", "name of the edge, in the order of the outline"},
    {KEY_REPORT, "pieces[].edges[].length", "mm", "along the sewing line"},
    {KEY_REPORT, "pieces[].edges[].allowance", "mm", "seam allowance; 0 on a fold"},
    {KEY_REPORT, "pieces[].edges[].fold", "yes/no", "it lies on the fold of the cloth"},
    {KEY_REPORT, "pieces[].notches[].edge", "text", "the edge it stands on"},
    {KEY_REPORT, "pieces[].notches[].at", "mm", "from the first end of the edge, along the sewing line"},
    {KEY_REPORT, "pieces[].notches[].count", "number", "notches side by side: 1 front, 2 back, 3 other"},
    {KEY_REPORT, "pieces[].notches[].seam", "text", "the seam it belongs to; null when the recipe set it"},
    {KEY_REPORT, "pieces[].outline[][]", "mm",
     "x and y along the sewing line, counter-clockwise, to 0.01 mm"},
    {KEY_REPORT, "pieces[].cut_outline[][]", "mm", "the same of the cut line; empty where there is none"},
    {KEY_REPORT, "seams[].name", "text", "name of the seam"},
    {KEY_REPORT, "seams[].lengths[]", "mm", "two: of the one side and of the other"},
    {KEY_REPORT, "seams[].ease", "mm", "how much longer the first is meant to be; below 0, shorter"},
    {KEY_REPORT, "seams[].difference", "mm", "how much longer it is than that"},
    {KEY_REPORT, "seams[].holds", "yes/no", "the difference can be sewn"},
    {KEY_REPORT, "proofs[].what", "text", "name of the proof, as --accept takes it"},
    {KEY_REPORT, "proofs[].found", "any unit", "what was measured; 1 for yes and 0 for no"},
    {KEY_REPORT, "proofs[].wanted", "any unit", "what it is held against"},
    {KEY_REPORT, "proofs[].relation", "text", "at least, at most or equal; empty for a plain yes or no"},
    {KEY_REPORT, "proofs[].measure", "text", "length (mm), area (mm2), angle (degrees), number or text"},
    {KEY_REPORT, "proofs[].holds", "yes/no", "it holds"},
    {KEY_REPORT, "proofs[].accepted", "yes/no", "it was accepted by its name"},
    {KEY_REPORT, "proofs[].way_out", "text", "what would mend it; null when nothing is known"},
    {KEY_REPORT, "chapters[].recipe", "text", "name of a recipe that ran: block, necklines, recipe"},
    {KEY_REPORT, "chapters[].title", "text", "its title"},
    {KEY_REPORT, "chapters[].hash", "text", "of its text (FNV-1a, 64 bits)"},
    {KEY_REPORT, "inputs[].name", "text", "name of a measurement or a choice"},
    {KEY_REPORT, "inputs[].kind", "text", "need or choice"},
    {KEY_REPORT, "inputs[].value", "any unit", "what was used: mm, years of age, a number or text"},
    {KEY_REPORT, "inputs[].optional", "yes/no", "the recipe can do without it"},
    {KEY_REPORT, "inputs[].default", "yes/no", "nobody set it"},
    {KEY_REPORT, "remarks[].kind", "text", "warning, caution or note"},
    {KEY_REPORT, "remarks[].text", "text", "one sentence or more"},
    {KEY_REPORT, "notes[]", "text", "what to know about the measurements and files of this run"},

    {KEY_FAULT, "fault.file", "text", "the file it lies in; null when it lies in none"},
    {KEY_FAULT, "fault.line", "number", "the line, from 1; 0 when it lies on none"},
    {KEY_FAULT, "fault.step", "text", "the heading of the step; null when it lies in none"},
    {KEY_FAULT, "fault.message", "text", "what is wrong"},
    {KEY_FAULT, "fault.hint", "text", "what would work; null when nothing is known"},
    {KEY_FAULT, "fault.notes[]", "text", "as notes[] above"},

    {KEY_LIST, "recipes[].name", "text", "name of the recipe"},
    {KEY_LIST, "recipes[].family", "text", "blocks, necklines, bands, flat and so on; own for a file"},
    {KEY_LIST, "recipes[].title", "text", "its title"},
    {KEY_LIST, "recipes[].summary", "text", "its first paragraph"},
    {KEY_LIST, "recipes[].needs[].name", "text", "bodice, or a measurement"},
    {KEY_LIST, "recipes[].needs[].measure", "text", "length (mm), years (of age) or text (a bodice)"},
    {KEY_LIST, "recipes[].needs[].about", "text", "how it is taken"},
    {KEY_LIST, "recipes[].needs[].optional", "yes/no", "the recipe can do without it"},
    {KEY_LIST, "recipes[].choices[].name", "text", "name of the choice, as --set takes it"},
    {KEY_LIST, "recipes[].choices[].measure", "text", "length (mm), number or text"},
    {KEY_LIST, "recipes[].choices[].default", "any unit", "what is taken when nobody sets it"},
    {KEY_LIST, "recipes[].choices[].least", "any unit", "the smallest; null where there is no limit"},
    {KEY_LIST, "recipes[].choices[].most", "any unit", "the largest; null where there is no limit"},
    {KEY_LIST, "recipes[].choices[].options[]", "text",
     "the words to choose from; empty for lengths and numbers"},
    {KEY_LIST, "recipes[].choices[].about", "text", "what it decides"},
    {KEY_LIST, "recipes[].without_block", "yes/no",
     "a collar that runs on a measured neckline, --block none"},
    {KEY_LIST, "bodies[].name", "text", "name of the set of measurements"},
    {KEY_LIST, "bodies[].measurements.NAME", "mm", "a measurement; of an age, years"},
};
enum { ROW_COUNT = sizeof rows / sizeof *rows };

const KeyRow *keys_all(int *count) {
    *count = ROW_COUNT;
    return rows;
}

void keys_write(Buffer *out) {
    static const char *const headings[KEY_GROUP_COUNT] = {
        [KEY_REPORT] = "The report in JSON, of draft, weave and check --json and of -o FILE.json:",
        [KEY_FAULT] = "When nothing could be drafted (the exit status is 2):",
        [KEY_LIST] = "The list in JSON, of list --json:",
    };
    for (int group = 0; group < KEY_GROUP_COUNT; group++) {
        buffer_add_format(out, "%s%s\n\n", group > 0 ? "\n" : "", headings[group]);
        for (int i = 0; i < ROW_COUNT; i++)
            if (rows[i].group == (KeyGroup)group)
                buffer_add_format(out, "  %-28s %-8s %s\n", rows[i].path, rows[i].kind, rows[i].about);
    }
    buffer_add_text(
        out, "\n[] stands for each of a list, a name in capitals for any name. Where the unit is any "
             "it is mm, mm2,\ndegrees or a plain number, as what is named. New names may be added; these "
             "stay.\n");
}
