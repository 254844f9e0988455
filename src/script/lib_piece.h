// Pieces, for the files that bind their words.
#ifndef REBATO_SCRIPT_LIB_PIECE_H
#define REBATO_SCRIPT_LIB_PIECE_H

#include <lua.h>

#include "pattern/piece.h"

// The most edges a piece is traced from.
#define PIECE_EDGES_MAX 200

// A copy of the piece at index 1 to be changed, in the run's memory.
Piece piece_draft(lua_State *L);

// The edge the argument names, or is; raises where the piece has no such edge.
int check_edge(lua_State *L, const Piece *piece, int argument);
int fail_no_edge(lua_State *L, const Piece *piece, const char *name) __attribute__((noreturn));

// The index of pieces: methods, fields, then edges.
int piece_index(lua_State *L);

// A piece for the examples, called band.
#define PIECE_EXAMPLE                                                                                  \
    "local d = draft \"Band\"\n"                                                                       \
    "local low, high = line(point(0, 0), point(20*cm, 0)), line(point(0, 4*cm), point(20*cm, 4*cm))\n" \
    "local band = piece(\"Band\", { lower = low, upper = high,\n"                                      \
    "  left_end = line(low.first, high.first), right_end = line(low.last, high.last) })\n"             \
    "band = band:grain(\"along\", \"lower\")\n"

#endif
