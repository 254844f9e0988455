// What is kept of Lua, and the units: explained here, brought by the sealed state.
#include "script/library.h"

#define PLAIN WORDS_PLAIN

const Binding lib_plain_rows[] = {
    {{"cm", PLAIN, "cm", "10: lengths are in mm, so 14*cm is 140.",
      "bodice.front.P = bodice.front.centre_neck:down(8*cm)"},
     NULL},
    {{"mm", PLAIN, "mm", "1: says that a number is a length in mm.",
      "bodice.front.P = bodice.front.centre_neck:down(80*mm)"},
     NULL},
    {{"inch", PLAIN, "inch", "25.4: 5/8*inch is 15.875 mm.",
      "bodice.front.P = bodice.front.centre_neck:down(3*inch + 1/8*inch)"},
     NULL},
    {{"assert", PLAIN, "assert(condition [, \"text\"])",
      "An error with the text where the condition does not hold.",
      "local f = bodice.front\n"
      "assert(f.shoulder.length > 5*cm, \"the shoulder is too short\")\n"
      "f.P = f.shoulder:at(5*cm)"},
     NULL},
    {{"error", PLAIN, "error(\"text\")", "Stops the run with the text; refuse also says what would work.",
      "local side = \"front\"\n"
      "if side ~= \"front\" and side ~= \"back\" then error(\"no half is called \" .. side) end\n"
      "bodice[side].P = bodice[side].shoulder:at(5*cm)"},
     NULL},
    {{"pcall", PLAIN, "pcall(function, ...)  ->  true, results  or  false, message",
      "Calls a function and catches its error, unless a limit of the run was passed.",
      "local ok = pcall(function() return bodice.front.collar end)\n"
      "note(\"there\", ok and \"yes\" or \"no\", \"text\")"},
     NULL},
    {{"ipairs", PLAIN, "for i, x in ipairs(list) do", "Goes through a list in order.",
      "for i, d in ipairs { 2*cm, 4*cm, 8*cm } do\n"
      "  bodice.front[\"P\" .. i] = bodice.front.shoulder:at(d)\n"
      "end"},
     NULL},
    {{"pairs", PLAIN, "for key, x in pairs(table) do",
      "Goes through a table: number keys rising, then text keys in alphabetical order.",
      "for name, d in pairs { near = 2*cm, far = 8*cm } do\n"
      "  bodice.front[name] = bodice.front.shoulder:at(d)\n"
      "end"},
     NULL},
    {{"next", PLAIN, "next(table [, key])  ->  key, value",
      "The first entry of a table, or the one after a key, as pairs goes.",
      "local name, d = next { near = 2*cm }\n"
      "bodice.front[name] = bodice.front.shoulder:at(d)"},
     NULL},
    {{"select", PLAIN, "select(n, ...)  or  select(\"#\", ...)",
      "The values from the n-th on, or how many there are.",
      "local second = select(2, 2*cm, 4*cm, 8*cm)\n"
      "bodice.front.P = bodice.front.shoulder:at(second)"},
     NULL},
    {{"tonumber", PLAIN, "tonumber(text)  ->  number or nil", "The number a text tells.",
      "bodice.front.P = bodice.front.shoulder:at(tonumber(\"4\") * cm)"},
     NULL},
    {{"tostring", PLAIN, "tostring(x)  ->  text", "A value as text; show is for lengths.",
      "note(\"told\", tostring(12), \"text\")"},
     NULL},
    {{"type", PLAIN, "type(x)  ->  text",
      "\"point\", \"path\", \"draft\", \"piece\", \"number\", \"string\", \"table\", \"boolean\", "
      "\"function\" or \"nil\".",
      "note(\"kind\", type(bodice.front), \"text\")"},
     NULL},
    {{"math", PLAIN, "math.sqrt(x), math.sin(x), math.max(a, b), ...",
      "Lua's mathematics, all but chance: abs acos asin atan ceil cos deg exp floor fmod huge log max "
      "maxinteger min mininteger modf "
      "pi rad sin sqrt tan tointeger type ult. Its angles are radians: math.rad and math.deg turn them.",
      "diagonal = math.sqrt(6^2 + 8^2) * cm\n"
      "bodice.front.P = bodice.front.centre_neck:down(diagonal)"},
     NULL},
    {{"string", PLAIN, "text:sub(from, to), text:format(...), ...",
      "Lua's functions on text: byte char find format gmatch gsub len lower match rep reverse sub upper.",
      "note(\"label\", string.format(\"cut %d\", 2), \"text\")"},
     NULL},
    {{"table", PLAIN, "table.insert(list, x), table.concat(list, \", \"), ...",
      "Lua's functions on lists: concat insert pack remove sort unpack.",
      "local corners = { point(0, 0) }\n"
      "table.insert(corners, point(10*cm, 0))\n"
      "table.insert(corners, point(10*cm, 4*cm))\n"
      "local d = draft \"Corners\"\n"
      "d.edge = line(table.unpack(corners))"},
     NULL},
    {{NULL}, NULL},
};
