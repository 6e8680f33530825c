/* standards.c: the standards a kit's fasteners are named by.
 *
 * Numbers, titles, twins and ranges of diameters are from memory of the standards' scopes (M); the dimensions that
 * matter for a computation stand in the dimension tables, each with its source. A range here only keeps nonsense out:
 * it may be narrower than the standard's, because we know nothing above M24. */
#include <stdio.h>
#include <string.h>

#include "trade/designation.h"

/* One row, one standard. */
/* clang-format off */
static const fastener_standard standards[] = {
    /* hexagon heads */
    {"ISO", 4014, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_PARTIAL, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 931", true, "hexagon bolt, threaded in part"},
    {"ISO", 4017, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 933", true, "hexagon screw, threaded to the head"},
    {"ISO", 8765, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_PARTIAL, SIZE_THREAD_LENGTH, 8000, 24000, "DIN 960", true, "hexagon bolt, fine pitch, threaded in part"},
    {"ISO", 8676, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD_LENGTH, 8000, 24000, "DIN 961", true, "hexagon screw, fine pitch, threaded to the head"},
    {"DIN", 931, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_PARTIAL, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4014", true, "hexagon bolt, threaded in part, older widths"},
    {"DIN", 933, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4017", true, "hexagon screw, threaded to the head, older widths"},
    {"DIN", 960, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_PARTIAL, SIZE_THREAD_LENGTH, 8000, 24000, "ISO 8765", true, "hexagon bolt, fine pitch, older widths"},
    {"DIN", 961, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD_LENGTH, 8000, 24000, "ISO 8676", true, "hexagon screw, fine pitch, older widths"},
    {"EN", 1665, 0, FASTENER_SCREW, FORM_HEX_FLANGE_HEAD, DRIVE_HEXAGON, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 5000, 20000, "DIN 6921", true, "hexagon flange screw"},
    {"ISO", 4162, 0, FASTENER_SCREW, FORM_HEX_FLANGE_HEAD, DRIVE_HEXAGON, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 5000, 16000, "", false, "hexagon flange bolt, small series"},
    {"DIN", 6921, 0, FASTENER_SCREW, FORM_HEX_FLANGE_HEAD, DRIVE_HEXAGON, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 5000, 20000, "EN 1665", true, "hexagon flange screw"},
    /* socket heads */
    {"ISO", 4762, 0, FASTENER_SCREW, FORM_CYLINDER_HEAD, DRIVE_HEX_SOCKET, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 912", false, "socket cap screw"},
    {"DIN", 912, 0, FASTENER_SCREW, FORM_CYLINDER_HEAD, DRIVE_HEX_SOCKET, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4762", false, "socket cap screw"},
    {"DIN", 6912, 0, FASTENER_SCREW, FORM_LOW_CYLINDER_HEAD, DRIVE_HEX_SOCKET, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 4000, 24000, "", false, "low socket cap screw with pilot recess"},
    {"DIN", 7984, 0, FASTENER_SCREW, FORM_LOW_CYLINDER_HEAD, DRIVE_HEX_SOCKET, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 3000, 24000, "", false, "low socket cap screw"},
    {"ISO", 14579, 0, FASTENER_SCREW, FORM_CYLINDER_HEAD, DRIVE_HEXALOBULAR, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 2000, 20000, "", false, "cap screw, hexalobular socket"},
    {"ISO", 14580, 0, FASTENER_SCREW, FORM_LOW_CYLINDER_HEAD, DRIVE_HEXALOBULAR, THREAD_FULL, SIZE_THREAD_LENGTH, 2000, 10000, "", false, "low cap screw, hexalobular socket"},
    {"ISO", 7380, 1, FASTENER_SCREW, FORM_BUTTON_HEAD, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 3000, 16000, "", false, "button head screw"},
    {"ISO", 7380, 2, FASTENER_SCREW, FORM_BUTTON_HEAD, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 3000, 16000, "", false, "button head screw with collar"},
    {"ISO", 10642, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_HEX_SOCKET, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 2000, 20000, "DIN 7991", true, "countersunk screw, hex socket"},
    {"DIN", 7991, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_HEX_SOCKET, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 3000, 24000, "ISO 10642", true, "countersunk screw, hex socket, smaller head"},
    /* slots, crosses, six lobes */
    {"ISO", 1207, 0, FASTENER_SCREW, FORM_CHEESE_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 84", false, "slotted cheese head screw"},
    {"DIN", 84, 0, FASTENER_SCREW, FORM_CHEESE_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "ISO 1207", false, "slotted cheese head screw"},
    {"ISO", 1580, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 85", false, "slotted pan head screw"},
    {"DIN", 85, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "ISO 1580", false, "slotted pan head screw"},
    {"ISO", 2009, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 963", true, "slotted countersunk screw"},
    {"DIN", 963, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 20000, "ISO 2009", true, "slotted countersunk screw"},
    {"ISO", 2010, 0, FASTENER_SCREW, FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 964", true, "slotted raised countersunk screw"},
    {"DIN", 964, 0, FASTENER_SCREW, FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_SLOT, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 20000, "ISO 2010", true, "slotted raised countersunk screw"},
    {"ISO", 7045, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 7985", true, "cross recess pan head screw"},
    {"DIN", 7985, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "ISO 7045", true, "cross recess pan head screw"},
    {"ISO", 7046, 1, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 965", true, "cross recess countersunk screw"},
    {"ISO", 7046, 2, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 2000, 10000, "DIN 965", true, "cross recess countersunk screw, class 8.8 and others"},
    {"DIN", 965, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "ISO 7046-1", true, "cross recess countersunk screw"},
    {"ISO", 7047, 0, FASTENER_SCREW, FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "DIN 966", true, "cross recess raised countersunk screw"},
    {"DIN", 966, 0, FASTENER_SCREW, FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 1600, 10000, "ISO 7047", true, "cross recess raised countersunk screw"},
    {"ISO", 14581, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_HEXALOBULAR, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 2000, 10000, "", false, "countersunk screw, hexalobular socket"},
    {"ISO", 14583, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_HEXALOBULAR, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 2000, 10000, "", false, "pan head screw, hexalobular socket"},
    {"ISO", 14584, 0, FASTENER_SCREW, FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_HEXALOBULAR, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 2000, 10000, "", false, "raised countersunk screw, hexalobular socket"},
    /* others with a head */
    {"ISO", 8677, 0, FASTENER_SCREW, FORM_MUSHROOM_HEAD, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 5000, 20000, "DIN 603", true, "carriage bolt: round head, square neck"},
    {"DIN", 603, 0, FASTENER_SCREW, FORM_MUSHROOM_HEAD, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 5000, 20000, "ISO 8677", true, "carriage bolt: round head, square neck"},
    {"DIN", 444, 0, FASTENER_SCREW, FORM_EYE, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_THREAD_LENGTH, 5000, 24000, "", false, "eye bolt"},
    {"ISO", 1479, 0, FASTENER_SCREW, FORM_HEX_HEAD, DRIVE_HEXAGON, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "DIN 7976", false, "hexagon tapping screw"},
    {"ISO", 1481, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_SLOT, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "DIN 7971", false, "slotted pan head tapping screw"},
    {"ISO", 1482, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_SLOT, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "DIN 7972", false, "slotted countersunk tapping screw"},
    {"ISO", 7049, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_CROSS, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "DIN 7981", false, "cross recess pan head tapping screw"},
    {"ISO", 7050, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "DIN 7982", false, "cross recess countersunk tapping screw"},
    {"ISO", 7051, 0, FASTENER_SCREW, FORM_RAISED_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "DIN 7983", false, "cross recess raised countersunk tapping screw"},
    {"DIN", 7981, 0, FASTENER_SCREW, FORM_PAN_HEAD, DRIVE_CROSS, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "ISO 7049", false, "cross recess pan head tapping screw"},
    {"DIN", 7982, 0, FASTENER_SCREW, FORM_COUNTERSUNK_HEAD, DRIVE_CROSS, THREAD_FULL, SIZE_TAPPING_LENGTH, 2200, 9500, "ISO 7050", false, "cross recess countersunk tapping screw"},
    /* set screws */
    {"ISO", 4026, 0, FASTENER_SET_SCREW, FORM_FLAT_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 913", false, "set screw, flat point"},
    {"ISO", 4027, 0, FASTENER_SET_SCREW, FORM_CONE_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 914", false, "set screw, cone point"},
    {"ISO", 4028, 0, FASTENER_SET_SCREW, FORM_DOG_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 915", false, "set screw, dog point"},
    {"ISO", 4029, 0, FASTENER_SET_SCREW, FORM_CUP_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "DIN 916", false, "set screw, cup point"},
    {"DIN", 913, 0, FASTENER_SET_SCREW, FORM_FLAT_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4026", false, "set screw, flat point"},
    {"DIN", 914, 0, FASTENER_SET_SCREW, FORM_CONE_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4027", false, "set screw, cone point"},
    {"DIN", 915, 0, FASTENER_SET_SCREW, FORM_DOG_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4028", false, "set screw, dog point"},
    {"DIN", 916, 0, FASTENER_SET_SCREW, FORM_CUP_POINT, DRIVE_HEX_SOCKET, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 24000, "ISO 4029", false, "set screw, cup point"},
    {"ISO", 4766, 0, FASTENER_SET_SCREW, FORM_FLAT_POINT, DRIVE_SLOT, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 12000, "DIN 551", false, "slotted set screw, flat point"},
    {"ISO", 7434, 0, FASTENER_SET_SCREW, FORM_CONE_POINT, DRIVE_SLOT, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 12000, "DIN 553", false, "slotted set screw, cone point"},
    {"ISO", 7435, 0, FASTENER_SET_SCREW, FORM_DOG_POINT, DRIVE_SLOT, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 12000, "DIN 417", false, "slotted set screw, dog point"},
    {"ISO", 7436, 0, FASTENER_SET_SCREW, FORM_CUP_POINT, DRIVE_SLOT, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 12000, "DIN 438", false, "slotted set screw, cup point"},
    {"DIN", 551, 0, FASTENER_SET_SCREW, FORM_FLAT_POINT, DRIVE_SLOT, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 12000, "ISO 4766", false, "slotted set screw, flat point"},
    {"DIN", 553, 0, FASTENER_SET_SCREW, FORM_CONE_POINT, DRIVE_SLOT, THREAD_FULL, SIZE_THREAD_LENGTH, 1600, 12000, "ISO 7434", false, "slotted set screw, cone point"},
    /* rods */
    {"DIN", 975, 0, FASTENER_ROD, FORM_PLAIN_ROD, DRIVE_NONE, THREAD_FULL, SIZE_THREAD_LENGTH, 2000, 24000, "DIN 976-1", false, "threaded rod"},
    {"DIN", 976, 1, FASTENER_ROD, FORM_PLAIN_ROD, DRIVE_NONE, THREAD_FULL, SIZE_THREAD_LENGTH, 2000, 24000, "DIN 975", false, "threaded rod, cut to length"},
    {"DIN", 938, 0, FASTENER_ROD, FORM_PLAIN_ROD, DRIVE_NONE, THREAD_PARTIAL, SIZE_THREAD_LENGTH, 3000, 24000, "", false, "stud, metal end 1 d"},
    {"DIN", 939, 0, FASTENER_ROD, FORM_PLAIN_ROD, DRIVE_NONE, THREAD_PARTIAL, SIZE_THREAD_LENGTH, 4000, 24000, "", false, "stud, metal end 1.25 d"},
    /* nuts */
    {"ISO", 4032, 0, FASTENER_NUT, FORM_HEX_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 1600, 24000, "DIN 934", true, "hexagon nut"},
    {"ISO", 4033, 0, FASTENER_NUT, FORM_HEX_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 24000, "", false, "high hexagon nut"},
    {"ISO", 4034, 0, FASTENER_NUT, FORM_HEX_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 24000, "DIN 555", true, "hexagon nut, product grade C"},
    {"ISO", 4035, 0, FASTENER_NUT, FORM_THIN_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 1600, 24000, "DIN 439-2", true, "thin hexagon nut"},
    {"ISO", 8673, 0, FASTENER_NUT, FORM_HEX_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 8000, 24000, "DIN 934", true, "hexagon nut, fine pitch"},
    {"ISO", 8675, 0, FASTENER_NUT, FORM_THIN_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 8000, 24000, "DIN 439-2", true, "thin hexagon nut, fine pitch"},
    {"DIN", 934, 0, FASTENER_NUT, FORM_HEX_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 1600, 24000, "ISO 4032", true, "hexagon nut, older widths and heights"},
    {"DIN", 936, 0, FASTENER_NUT, FORM_THIN_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 8000, 24000, "ISO 4035", true, "thin hexagon nut, older widths"},
    {"DIN", 439, 2, FASTENER_NUT, FORM_THIN_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 1600, 24000, "ISO 4035", true, "thin hexagon nut, older widths"},
    {"ISO", 7040, 0, FASTENER_NUT, FORM_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 3000, 24000, "DIN 982", true, "locking nut with plastic ring"},
    {"DIN", 982, 0, FASTENER_NUT, FORM_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 3000, 24000, "ISO 7040", true, "locking nut with plastic ring, older widths"},
    {"DIN", 985, 0, FASTENER_NUT, FORM_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 3000, 24000, "ISO 10511", true, "locking nut with plastic ring, low"},
    {"ISO", 10511, 0, FASTENER_NUT, FORM_THIN_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 3000, 24000, "DIN 985", true, "thin locking nut with plastic ring"},
    {"ISO", 10512, 0, FASTENER_NUT, FORM_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 8000, 24000, "", false, "locking nut with plastic ring, fine pitch"},
    {"ISO", 7042, 0, FASTENER_NUT, FORM_ALL_METAL_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 24000, "DIN 980", true, "all-metal locking nut"},
    {"ISO", 7719, 0, FASTENER_NUT, FORM_ALL_METAL_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 24000, "DIN 980", true, "all-metal locking nut"},
    {"DIN", 980, 0, FASTENER_NUT, FORM_ALL_METAL_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 3000, 24000, "ISO 7042", true, "all-metal locking nut, older widths"},
    {"ISO", 7035, 0, FASTENER_NUT, FORM_CASTLE_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 4000, 24000, "DIN 935-1", true, "castle nut"},
    {"DIN", 935, 1, FASTENER_NUT, FORM_CASTLE_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 4000, 24000, "ISO 7035", true, "castle nut, older widths"},
    {"DIN", 937, 0, FASTENER_NUT, FORM_CASTLE_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 4000, 24000, "", false, "thin castle nut"},
    {"ISO", 4161, 0, FASTENER_NUT, FORM_FLANGE_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 20000, "DIN 6923", true, "flange nut"},
    {"DIN", 6923, 0, FASTENER_NUT, FORM_FLANGE_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 20000, "ISO 4161", true, "flange nut"},
    {"ISO", 7043, 0, FASTENER_NUT, FORM_FLANGE_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 20000, "DIN 6926", true, "locking flange nut with plastic ring"},
    {"DIN", 6926, 0, FASTENER_NUT, FORM_FLANGE_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 20000, "ISO 7043", true, "locking flange nut with plastic ring"},
    {"ISO", 7044, 0, FASTENER_NUT, FORM_FLANGE_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 20000, "DIN 6927", true, "all-metal locking flange nut"},
    {"DIN", 6927, 0, FASTENER_NUT, FORM_FLANGE_LOCK_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 5000, 20000, "ISO 7044", true, "all-metal locking flange nut"},
    {"DIN", 1587, 0, FASTENER_NUT, FORM_CAP_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 3000, 24000, "", false, "domed cap nut"},
    {"DIN", 917, 0, FASTENER_NUT, FORM_CAP_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 4000, 24000, "", false, "cap nut, low"},
    {"DIN", 986, 0, FASTENER_NUT, FORM_CAP_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 4000, 24000, "", false, "locking domed cap nut"},
    {"DIN", 315, 0, FASTENER_NUT, FORM_WING_NUT, DRIVE_HAND, THREAD_FULL, SIZE_THREAD, 3000, 24000, "", false, "wing nut"},
    {"DIN", 557, 0, FASTENER_NUT, FORM_SQUARE_NUT, DRIVE_SQUARE, THREAD_FULL, SIZE_THREAD, 5000, 16000, "", false, "square nut"},
    {"DIN", 562, 0, FASTENER_NUT, FORM_SQUARE_NUT, DRIVE_SQUARE, THREAD_FULL, SIZE_THREAD, 1600, 10000, "", false, "thin square nut"},
    {"DIN", 508, 0, FASTENER_NUT, FORM_SLOT_NUT, DRIVE_NONE, THREAD_FULL, SIZE_THREAD, 5000, 24000, "", false, "nut for T-slots"},
    {"DIN", 6334, 0, FASTENER_NUT, FORM_LONG_NUT, DRIVE_HEXAGON, THREAD_FULL, SIZE_THREAD, 6000, 24000, "", false, "long nut, three diameters high"},
    /* washers */
    {"ISO", 7089, 0, FASTENER_WASHER, FORM_PLAIN_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 1600, 24000, "DIN 125", false, "plain washer"},
    {"ISO", 7090, 0, FASTENER_WASHER, FORM_CHAMFERED_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 5000, 24000, "DIN 125", false, "plain washer, chamfered"},
    {"ISO", 7091, 0, FASTENER_WASHER, FORM_PLAIN_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 5000, 24000, "DIN 126", true, "plain washer, product grade C"},
    {"ISO", 7092, 0, FASTENER_WASHER, FORM_SMALL_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 1600, 24000, "DIN 433", true, "small plain washer"},
    {"ISO", 7093, 1, FASTENER_WASHER, FORM_LARGE_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 3000, 24000, "DIN 9021", true, "large plain washer"},
    {"ISO", 7094, 0, FASTENER_WASHER, FORM_EXTRA_LARGE_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 5000, 24000, "DIN 440", true, "extra large plain washer"},
    {"DIN", 125, 0, FASTENER_WASHER, FORM_PLAIN_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 1600, 24000, "ISO 7089", false, "plain washer (named by its hole)"},
    {"DIN", 126, 0, FASTENER_WASHER, FORM_PLAIN_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 5000, 24000, "ISO 7091", true, "plain washer, product grade C (named by its hole)"},
    {"DIN", 433, 0, FASTENER_WASHER, FORM_SMALL_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 1600, 20000, "ISO 7092", true, "small plain washer (named by its hole)"},
    {"DIN", 440, 0, FASTENER_WASHER, FORM_EXTRA_LARGE_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 5000, 24000, "ISO 7094", true, "extra large washer (named by its hole)"},
    {"DIN", 9021, 0, FASTENER_WASHER, FORM_LARGE_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 3000, 20000, "ISO 7093-1", true, "large plain washer (named by its hole)"},
    {"DIN", 127, 0, FASTENER_WASHER, FORM_SPRING_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 2000, 24000, "", false, "spring lock washer (standard withdrawn)"},
    {"DIN", 128, 0, FASTENER_WASHER, FORM_SPRING_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 2000, 24000, "", false, "curved spring lock washer (standard withdrawn)"},
    {"DIN", 137, 0, FASTENER_WASHER, FORM_WAVE_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 2000, 24000, "", false, "wave spring washer (standard withdrawn)"},
    {"DIN", 7980, 0, FASTENER_WASHER, FORM_SPRING_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 3000, 24000, "", false, "spring lock washer for cap screws (standard withdrawn)"},
    {"DIN", 6796, 0, FASTENER_WASHER, FORM_CONICAL_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_FOR_THREAD, 2000, 24000, "", false, "conical spring washer"},
    {"DIN", 6797, 0, FASTENER_WASHER, FORM_TOOTHED_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 2000, 24000, "", false, "toothed lock washer (standard withdrawn)"},
    {"DIN", 6798, 0, FASTENER_WASHER, FORM_TOOTHED_WASHER, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_HOLE, 2000, 24000, "", false, "serrated lock washer (standard withdrawn)"},
    /* pins */
    {"ISO", 1234, 0, FASTENER_PIN, FORM_SPLIT_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 600, 20000, "DIN 94", false, "split pin (size of its hole x length)"},
    {"DIN", 94, 0, FASTENER_PIN, FORM_SPLIT_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 600, 20000, "ISO 1234", false, "split pin (size of its hole x length)"},
    {"ISO", 2338, 0, FASTENER_PIN, FORM_DOWEL_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 600, 50000, "DIN 7", true, "parallel pin"},
    {"DIN", 7, 0, FASTENER_PIN, FORM_DOWEL_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 600, 50000, "ISO 2338", true, "parallel pin"},
    {"ISO", 8734, 0, FASTENER_PIN, FORM_DOWEL_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 1000, 20000, "DIN 6325", true, "hardened dowel pin"},
    {"DIN", 6325, 0, FASTENER_PIN, FORM_DOWEL_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 1000, 20000, "ISO 8734", true, "hardened dowel pin"},
    {"ISO", 8752, 0, FASTENER_PIN, FORM_SPRING_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 1000, 50000, "DIN 1481", false, "slotted spring pin, heavy"},
    {"DIN", 1481, 0, FASTENER_PIN, FORM_SPRING_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 1000, 50000, "ISO 8752", false, "slotted spring pin, heavy"},
    {"ISO", 13337, 0, FASTENER_PIN, FORM_SPRING_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 2000, 50000, "DIN 7346", false, "slotted spring pin, light"},
    {"DIN", 7346, 0, FASTENER_PIN, FORM_SPRING_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 2000, 50000, "ISO 13337", false, "slotted spring pin, light"},
    {"ISO", 8750, 0, FASTENER_PIN, FORM_SPRING_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 800, 20000, "DIN 7343", false, "coiled spring pin"},
    {"ISO", 2339, 0, FASTENER_PIN, FORM_TAPER_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 600, 50000, "DIN 1", false, "taper pin"},
    {"DIN", 1, 0, FASTENER_PIN, FORM_TAPER_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 600, 50000, "ISO 2339", false, "taper pin"},
    {"ISO", 2340, 0, FASTENER_PIN, FORM_CLEVIS_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 3000, 50000, "DIN 1443", false, "clevis pin without head"},
    {"ISO", 2341, 0, FASTENER_PIN, FORM_CLEVIS_PIN, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER_LENGTH, 3000, 50000, "DIN 1444", false, "clevis pin with head"},
    /* retaining rings */
    {"DIN", 471, 0, FASTENER_RING, FORM_SHAFT_RING, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER, 3000, 300000, "", false, "retaining ring for shafts"},
    {"DIN", 472, 0, FASTENER_RING, FORM_BORE_RING, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER, 8000, 300000, "", false, "retaining ring for bores"},
    {"DIN", 6799, 0, FASTENER_RING, FORM_E_RING, DRIVE_NONE, THREAD_EXTENT_UNKNOWN, SIZE_DIAMETER, 800, 30000, "", false, "retaining washer for shafts"},
};
/* clang-format on */

enum { N_STANDARDS = sizeof standards / sizeof *standards };

const fastener_standard *fastener_standard_at(size_t i) {
    return i < N_STANDARDS ? &standards[i] : NULL;
}

const fastener_standard *fastener_standard_find(const char *body, unsigned number, unsigned part) {
    const fastener_standard *first_part = NULL;
    for (size_t i = 0; i < N_STANDARDS; i++) {
        const fastener_standard *s = &standards[i];
        if (s->number != number || strcmp(s->body, body) != 0)
            continue;
        if (s->part == part)
            return s;
        if (!first_part)
            first_part = s;
    }
    return part == 0 ? first_part : NULL;
}

int fastener_standard_print(const fastener_standard *s, char *out, size_t size) {
    if (s->part)
        return snprintf(out, size, "%s %u-%u", s->body, s->number, s->part);
    return snprintf(out, size, "%s %u", s->body, s->number);
}
