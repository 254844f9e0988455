// Names of the recipe language as a drawing shows them.
#ifndef REBATO_SHEET_PLAIN_NAME_H
#define REBATO_SHEET_PLAIN_NAME_H

#define PLAIN_NAME_MAX 96 // bytes, the NUL included

// "neck_point" becomes "neck point", and a twin's "S over top" the plain "S". NULL becomes "".
void plain_name(const char *name, char out[PLAIN_NAME_MAX]);

#endif
