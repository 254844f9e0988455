// The neckline set wider and lower. Values worked from the example block (plane geometry).
#include <criterion/criterion.h>

#include "drafted.h"

#define CHAIN "blocks/close-fitting necklines/lowered"

Test(necklines, a_little_wider_and_lower) { // T19
    Pattern p;
    draft_of(CHAIN, "widen=3mm lower_front=7mm lower_back=2mm", EXAMPLE_88, &p);
    const Point front = mark_of(&p, "Front", "new_point")->point,
                back = mark_of(&p, "Back", "new_point")->point;
    close_to(front.x, 69.9, 0.5, "front neck point, across");
    close_to(front.y, -0.8, 0.5, "front neck point, down");
    close_to(back.x, 74.8, 0.5, "back neck point, across");
    close_to(back.y, -1.1, 0.5, "back neck point, down");
    close_to(note_of(&p, "whole_neckline"), 382.7, 0.5, "whole neckline");
    pattern_finish(&p);
}

Test(necklines, one_two_one) { // T20
    Pattern p;
    draft_of(CHAIN, "widen=1cm lower_front=2cm lower_back=1cm", EXAMPLE_88, &p);
    close_to(note_of(&p, "front_neckline"), 126.8, 0.5, "front neckline");
    close_to(note_of(&p, "back_neckline"), 86.5, 0.5, "back neckline");
    close_to(note_of(&p, "whole_neckline"), 426.6, 0.5, "whole neckline");
    pattern_finish(&p);
}

Test(necklines, a_scoop_does_not_pass_the_head_without_a_slit) { // T21
    Pattern p;
    draft_of(CHAIN, "widen=2cm lower_front=5cm lower_back=1cm", EXAMPLE_88, &p);
    close_to(note_of(&p, "whole_neckline"), 499.4, 0.5, "whole neckline");
    cr_expect(note_of(&p, "whole_neckline") < 560.0 + 20.0, "a head of 56 cm and 2 cm of ease would pass");
    pattern_finish(&p);
}

Test(necklines, a_neckline_wider_than_the_shoulder_is_refused) {
    Pattern p;
    Fault fault;
    cr_expect(!drafted(CHAIN, "widen=8cm shoulder_length=10cm", EXAMPLE_88, &p, &fault),
              "8 cm of a 10 cm shoulder was allowed");
    cr_expect(fault.hint != NULL, "no way out was told");
    fault_finish(&fault);
    pattern_finish(&p);
}
