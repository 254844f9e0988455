// What is known about the names of measurements.
//
// The terms follow ISO 8559-1:2017 (definitions of body measurements), partly from memory; "over-head length"
// is of the trade alone. How each is taken is said in words of our own. The ranges only catch a slip, such as
// mm for cm: they are not sizes. Adults: where the public ANSUR II survey (US Army, measured 2010 to 2012,
// 1986 women and 4082 men) has the measure, its least and greatest persons with about a tenth more on the
// upper side; otherwise common practice, no source. The lower side goes down to a newborn: head girth from
// the CDC growth charts of 2000, third percentile 315 mm, with room for one born early; the rest common
// practice, no source.
#include "base/measures.h"

#include <string.h>

#include "base/text.h"

#define NAME_MOST 64

static const KnownMeasure known[] = {
    {"head_girth", "head girth", "level round the widest part of the head, above the ears, hair as worn", 280,
     700},
    {"neck_girth", "neck girth",
     "round the column of the neck, just below the Adam's apple and square to the neck", 170, 570},
    {"neck_base_girth", "neck base girth",
     "round the base of the neck, through the nape, the side neck points and the pit of the neck", 190, 600},
    {"chest_girth", "chest girth", "level round the chest, under the arms and over the shoulder blades", 280,
     1700},
    {"bust_girth", "bust girth", "level round the fullest part of the bust, tape not tight", 280, 1700},
    {"underbust_girth", "underbust girth", "level round the ribs, just below the bust", 280, 1600},
    {"waist_girth", "waist girth", "level round the waist, the narrowest part of the body", 260, 1700},
    {"hip_girth", "hip girth", "level round the fullest part of the seat", 260, 1800},
    {"upper_arm_girth", "upper arm girth", "round the fullest part of the upper arm, the arm hanging", 80,
     600},
    {"elbow_girth", "elbow girth", "round the elbow, the arm bent", 80, 500},
    {"wrist_girth", "wrist girth", "round the wrist, over its bone", 60, 300},
    {"armscye_girth", "armscye girth", "round the arm where a sleeve is set in, over the shoulder point", 130,
     750},
    {"thigh_girth", "thigh girth", "level round the fullest part of the thigh", 120, 1000},
    {"knee_girth", "knee girth", "level round the knee, standing", 100, 650},
    {"calf_girth", "calf girth", "level round the fullest part of the calf", 80, 650},
    {"ankle_girth", "ankle girth", "round the ankle, over its bones", 70, 450},
    {"hand_girth", "hand girth", "round the knuckles of the flat hand, without the thumb", 70, 320},
    {"shoulder_length", "shoulder length",
     "from the side neck point to the shoulder point, the edge of the bone", 35, 210},
    {"back_shoulder_width", "back shoulder width",
     "from shoulder point to shoulder point across the back, over the nape", 130, 620},
    {"across_back_width", "across back width",
     "across the back between the creases of the arms, half-way down the armhole", 120, 620},
    {"across_front_width", "across front width",
     "across the front between the creases of the arms, half-way down the armhole", 110, 600},
    {"back_neck_point_to_waist", "back neck point to waist", "from the nape down the spine to the waist", 130,
     660},
    {"front_neck_point_to_waist", "front neck point to waist", "from the pit of the neck down to the waist",
     110, 600},
    {"side_neck_point_to_bust_point", "side neck point to bust point",
     "from the side neck point down to the bust point", 90, 500},
    {"bust_point_width", "bust point width", "straight across from bust point to bust point", 60, 400},
    {"scye_depth", "scye depth length", "from the nape straight down to a tape laid level under the arms", 70,
     380},
    {"arm_length", "arm length", "from the shoulder point over the bent elbow to the wrist bone", 130, 850},
    {"height", "stature", "from the crown to the ground, standing straight, without shoes", 400, 2300},
    {"over_head_length", "over-head length",
     "from one side neck point over the crown to the other, loosely, as for a hood; a term of the trade", 320,
     850},
    {"age", "age at the last birthday",
     "the wearer's age at the last birthday, or in months in the first years", 0, 120},
};

#define KNOWN_COUNT ((int)(sizeof known / sizeof known[0]))

const KnownMeasure *measure_known(const char *name) {
    for (int i = 0; i < KNOWN_COUNT; i++)
        if (strcmp(known[i].name, name) == 0)
            return &known[i];
    return NULL;
}

bool measure_in_years(const char *name) {
    return strcmp(name, "age") == 0;
}

UnitsError measure_parse(const char *name, const char *text, double *out) {
    return measure_in_years(name) ? units_parse_years(text, out) : units_parse(text, out);
}

const KnownMeasure *measure_known_all(int *count) {
    *count = KNOWN_COUNT;
    return known;
}

static void without_lines(const char *name, char *out) {
    for (; *name; name++)
        if (*name != '_')
            *out++ = *name;
    *out = '\0';
}

// Names are held against each other word by word, one slip in a word of up to six letters and two in a longer
// one, two in all: "nek_girth" is neck_girth, while rib_girth is not hip_girth and leg_length not arm_length.
// Words run together or apart count as no slip.
static bool is_near(const char *typed, const char *name) {
    char one[NAME_MOST + 1], other[NAME_MOST + 1];
    without_lines(typed, one);
    without_lines(name, other);
    if (strcmp(one, other) == 0)
        return true;
    int all = 0;
    for (;;) {
        size_t typed_length = strcspn(typed, "_"), length = strcspn(name, "_");
        memcpy(one, typed, typed_length);
        memcpy(other, name, length);
        one[typed_length] = other[length] = '\0';
        int slips = text_slips(one, other);
        all += slips;
        if (slips > (length > 6 ? 2 : length > 3 ? 1 : 0) || all > 2)
            return false;
        typed += typed_length;
        name += length;
        if (*typed == '\0' || *name == '\0')
            return *typed == *name;
        typed++;
        name++;
    }
}

const char *measure_near_miss(const char *name) {
    if (strlen(name) > NAME_MOST || measure_known(name))
        return NULL;
    for (int i = 0; i < KNOWN_COUNT; i++)
        if (is_near(name, known[i].name))
            return known[i].name;
    return NULL;
}
