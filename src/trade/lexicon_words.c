/* lexicon_words.c: the phrases. To teach the program a word, add it to a row behind a "|", or add a row; order does not
 * matter. Common practice in parts lists and shops, no source. */
#include "trade/lexicon.h"

/* One row, one meaning. */
/* clang-format off */
static const lexicon_phrase phrases[] = {
    /* the nouns */
    {"screw|screws|bolt|bolts|machine screw|machine screws|cap screw|cap screws",
     .kind = FASTENER_SCREW},
    {"set screw|set screws|setscrew|setscrews|grub screw|grub screws|grub|headless screw",
     .kind = FASTENER_SET_SCREW},
    {"nut|nuts", .kind = FASTENER_NUT},
    {"washer|washers", .kind = FASTENER_WASHER},
    {"threaded rod|thread rod|studding|all thread", .kind = FASTENER_ROD, .form = FORM_PLAIN_ROD},
    {"rod|rods|stud|studs", .kind = FASTENER_ROD, .sense = SAYS_ONLY_IF},
    {"threaded insert|threaded inserts|thread insert|thread inserts|heat set insert|heat set inserts|"
     "heatset insert|heatset inserts|wire thread insert|wire thread inserts",
     .kind = FASTENER_INSERT, .form = FORM_THREAD_INSERT},
    {"insert|inserts", .kind = FASTENER_INSERT, .form = FORM_THREAD_INSERT, .sense = SAYS_ONLY_IF},
    /* heads and points */
    {"socket head cap screw|socket head cap screws|socket head cap|socket head|cap head|socket cap|"
     "shcs|cylinder head|cylindrical head|hex socket head cap|hexagon socket head cap|"
     "hexagon socket head|hex socket head|hex socket cap head",
     .kind = FASTENER_SCREW, .form = FORM_CYLINDER_HEAD, .drive = DRIVE_HEX_SOCKET},
    {"low head cap|low socket head|low head", .kind = FASTENER_SCREW, .form = FORM_LOW_CYLINDER_HEAD},
    {"button head|button|bhcs|hexagon socket button head|socket button head|dome head",
     .kind = FASTENER_SCREW, .form = FORM_BUTTON_HEAD, .drive = DRIVE_HEX_SOCKET},
    {"countersunk head|countersunk|csk|flat head|flathead|counter sunk|counterunk head",
     .kind = FASTENER_SCREW, .form = FORM_COUNTERSUNK_HEAD},
    {"raised countersunk head|raised countersunk|oval head|raised csk",
     .kind = FASTENER_SCREW, .form = FORM_RAISED_COUNTERSUNK_HEAD},
    {"socket countersunk head|socket countersunk|hexagon socket countersunk head|"
     "hexagon socket countersunk",
     .kind = FASTENER_SCREW, .form = FORM_COUNTERSUNK_HEAD, .drive = DRIVE_HEX_SOCKET},
    {"pan head|panhead", .kind = FASTENER_SCREW, .form = FORM_PAN_HEAD},
    {"cheese head", .kind = FASTENER_SCREW, .form = FORM_CHEESE_HEAD},
    {"hex head|hexagon head|hexagonal head|hex bolt|hex bolts|hexagon bolt|hexagon bolts|hex screw|"
     "hex screws|hexagon screw|hexagon screws|hex cap screw|hex head cap screw",
     .kind = FASTENER_SCREW, .form = FORM_HEX_HEAD, .drive = DRIVE_HEXAGON},
    {"hex flange head|hexagon flange head|hex flange bolt|hex flange screw|hexagon flange screw|"
     "flange bolt|flange screw|flanged bolt",
     .kind = FASTENER_SCREW, .form = FORM_HEX_FLANGE_HEAD, .drive = DRIVE_HEXAGON},
    {"carriage bolt|carriage bolts|coach bolt|coach bolts|cup square bolt|mushroom head square neck",
     .kind = FASTENER_SCREW, .form = FORM_MUSHROOM_HEAD, .drive = DRIVE_NONE},
    {"eye bolt|eyebolt|eye bolts", .kind = FASTENER_SCREW, .form = FORM_EYE, .drive = DRIVE_NONE},
    {"flat point", .kind = FASTENER_SET_SCREW, .form = FORM_FLAT_POINT},
    {"cone point", .kind = FASTENER_SET_SCREW, .form = FORM_CONE_POINT},
    {"dog point", .kind = FASTENER_SET_SCREW, .form = FORM_DOG_POINT},
    {"cup point", .kind = FASTENER_SET_SCREW, .form = FORM_CUP_POINT},
    {"hexagon socket set screw|hex socket set screw|socket set screw|socket set screws",
     .kind = FASTENER_SET_SCREW, .drive = DRIVE_HEX_SOCKET},
    /* nuts */
    {"hex nut|hex nuts|hexagon nut|hexagon nuts|hexagonal nut|full nut|full nuts|plain nut",
     .kind = FASTENER_NUT, .form = FORM_HEX_NUT, .drive = DRIVE_HEXAGON},
    {"nyloc nut|nylock nut|nyloc nuts|nylock nuts|nyloc|nylock|nylon lock nut|nylon insert lock nut|"
     "nylon insert nut|nylon insert lock nuts|prevailing torque nut",
     .kind = FASTENER_NUT, .form = FORM_LOCK_NUT, .drive = DRIVE_HEXAGON},
    {"lock nut|lock nuts|locknut|locknuts|locking nut|locking nuts|stop nut|self locking nut",
     .kind = FASTENER_NUT, .sense = SAYS_LOCKING},
    {"thread locking", .sense = SAYS_LOCKING},
    {"half nut|jam nut|thin nut|half nuts|jam nuts|thin nuts|thin hexagon nut",
     .kind = FASTENER_NUT, .form = FORM_THIN_NUT, .drive = DRIVE_HEXAGON, .sense = SAYS_THIN},
    {"castle nut|castellated nut|slotted nut|castle nuts",
     .kind = FASTENER_NUT, .form = FORM_CASTLE_NUT, .drive = DRIVE_HEXAGON},
    {"flange nut|flanged nut|flange nuts|hexagon flange nut",
     .kind = FASTENER_NUT, .form = FORM_FLANGE_NUT, .drive = DRIVE_HEXAGON},
    {"flange lock nut|flange nyloc nut",
     .kind = FASTENER_NUT, .form = FORM_FLANGE_LOCK_NUT, .drive = DRIVE_HEXAGON},
    {"cap nut|dome nut|domed nut|acorn nut|cap nuts|dome nuts|domed cap nut",
     .kind = FASTENER_NUT, .form = FORM_CAP_NUT, .drive = DRIVE_HEXAGON},
    {"wing nut|wing nuts|wingnut|wingnuts",
     .kind = FASTENER_NUT, .form = FORM_WING_NUT, .drive = DRIVE_HAND},
    {"square nut|square nuts", .kind = FASTENER_NUT, .form = FORM_SQUARE_NUT, .drive = DRIVE_SQUARE},
    {"t slot nut|t slot nuts|tee nut|t nut|t nuts|slot nut|slot nuts|hammer nut|drop in nut|"
     "sliding nut", .kind = FASTENER_NUT, .form = FORM_SLOT_NUT, .drive = DRIVE_NONE},
    {"coupling nut|long nut|connector nut|extension nut",
     .kind = FASTENER_NUT, .form = FORM_LONG_NUT, .drive = DRIVE_HEXAGON},
    {"all metal lock nut",
     .kind = FASTENER_NUT, .form = FORM_ALL_METAL_LOCK_NUT, .drive = DRIVE_HEXAGON},
    /* washers */
    {"plain washer|flat washer|plain washers|flat washers|form a washer",
     .kind = FASTENER_WASHER, .form = FORM_PLAIN_WASHER, .drive = DRIVE_NONE},
    {"chamfered washer|form b washer",
     .kind = FASTENER_WASHER, .form = FORM_CHAMFERED_WASHER, .drive = DRIVE_NONE},
    {"penny washer|penny washers|fender washer|fender washers|large washer|large washers|"
     "repair washer|repair washers|mudguard washer|wide washer|body washer",
     .kind = FASTENER_WASHER, .form = FORM_LARGE_WASHER, .drive = DRIVE_NONE},
    {"penny",
     .kind = FASTENER_WASHER, .form = FORM_LARGE_WASHER, .drive = DRIVE_NONE, .sense = SAYS_ONLY_IF},
    {"small washer", .kind = FASTENER_WASHER, .form = FORM_SMALL_WASHER, .drive = DRIVE_NONE},
    {"spring washer|spring washers|spring lock washer|split washer|split lock washer|split ring washer",
     .kind = FASTENER_WASHER, .form = FORM_SPRING_WASHER, .drive = DRIVE_NONE},
    {"wave washer|wave spring washer",
     .kind = FASTENER_WASHER, .form = FORM_WAVE_WASHER, .drive = DRIVE_NONE},
    {"conical washer|conical spring washer|disc spring washer",
     .kind = FASTENER_WASHER, .form = FORM_CONICAL_WASHER, .drive = DRIVE_NONE},
    {"toothed washer|star washer|serrated washer|shakeproof washer|tooth lock washer|"
     "toothed lock washer",
     .kind = FASTENER_WASHER, .form = FORM_TOOTHED_WASHER, .drive = DRIVE_NONE},
    {"lock washer|lock washers|lockwasher|lockwashers|locking washer|locking washers",
     .kind = FASTENER_WASHER, .drive = DRIVE_NONE, .sense = SAYS_LOCKING},
    /* pins and rings */
    {"split pin|split pins|cotter pin|cotter pins",
     .kind = FASTENER_PIN, .form = FORM_SPLIT_PIN, .drive = DRIVE_NONE},
    {"dowel pin|dowel pins|parallel pin|dowel|dowels",
     .kind = FASTENER_PIN, .form = FORM_DOWEL_PIN, .drive = DRIVE_NONE},
    {"roll pin|roll pins|spring pin|spring pins|slotted spring pin|coiled spring pin",
     .kind = FASTENER_PIN, .form = FORM_SPRING_PIN, .drive = DRIVE_NONE},
    {"taper pin|taper pins", .kind = FASTENER_PIN, .form = FORM_TAPER_PIN, .drive = DRIVE_NONE},
    {"clevis pin|clevis pins", .kind = FASTENER_PIN, .form = FORM_CLEVIS_PIN, .drive = DRIVE_NONE},
    {"circlip|circlips|retaining ring|retaining rings|snap ring|snap rings", .kind = FASTENER_RING},
    {"external circlip|shaft circlip|external retaining ring",
     .kind = FASTENER_RING, .form = FORM_SHAFT_RING, .drive = DRIVE_NONE},
    {"internal circlip|bore circlip|internal retaining ring",
     .kind = FASTENER_RING, .form = FORM_BORE_RING, .drive = DRIVE_NONE},
    {"e clip|e clips|e ring", .kind = FASTENER_RING, .form = FORM_E_RING, .drive = DRIVE_NONE},
    /* drives */
    {"hex socket|hexagon socket|internal hex|inner hex|hex drive|allen|allen key drive|inbus",
     .drive = DRIVE_HEX_SOCKET},
    {"cross recess|cross recessed|crosshead|cross head|cross slot|phillips|philips|phillips head",
     .drive = DRIVE_CROSS},
    {"slotted|slot head|straight slot", .drive = DRIVE_SLOT},
    {"hexalobular|hexalobular socket|six lobe|torx|star drive", .drive = DRIVE_HEXALOBULAR},
    {"hex|hexagon|hexagonal", .drive = DRIVE_HEXAGON},
    /* threads */
    {"self tapping|selftapping|tapping screw|tapping screws|self drilling|thread forming|"
     "sheet metal screw", .sense = SAYS_TAPPING},
    {"wood screw|wood screws|chipboard screw|chipboard screws",
     .kind = FASTENER_SCREW, .sense = SAYS_TAPPING},
    {"fully threaded|full thread|full threaded", .sense = SAYS_FULL_THREAD},
    {"partially threaded|part threaded|partial thread", .sense = SAYS_PART_THREAD},
    /* materials and finishes */
    {"stainless steel|stainless|inox|rust proof", .material = MATERIAL_STAINLESS},
    {"a2|v2a", .material = MATERIAL_A2},
    {"a4|v4a", .material = MATERIAL_A4},
    {"steel", .material = MATERIAL_STEEL},
    {"brass", .material = MATERIAL_BRASS},
    {"nylon|polyamide|plastic", .material = MATERIAL_PLASTIC},
    {"aluminium|aluminum|alu", .material = MATERIAL_ALUMINIUM},
    {"zinc plated|zinc|zinced|galvanized|galvanised|galvanized steel|galvanised steel|"
     "bright zinc plated|bzp", .finish = FINISH_ZINC},
    {"hot dip galvanised|hot dip galvanized|hot dip zinc", .finish = FINISH_HOT_DIP},
    {"black oxide|blackened|black", .finish = FINISH_BLACK},
    {"nickel plated|nickel", .finish = FINISH_NICKEL},
    /* words that say nothing more */
    {"head|metric|with|high tensile|product grade a|product grade b|coarse|fastener|fasteners|thread|"
     "type|of|pack|pcs|pieces|mm|din|iso|en|x|for", .sense = SAYS_NOTHING},
    /* no fasteners, whatever else is said */
    {"lead screw|lead screws|leadscrew|ball screw|ball screws|ballscrew|t8|t8 nut|lead nut|"
     "anti backlash nut|screw driver|screwdriver|screwdrivers|nut driver|hex key|hex keys|allen key|"
     "allen keys|spanner|spanners|wrench|wrenches|tap|taps|drill|drills|drill bit|thread tap|"
     "screw terminal|screw terminals|terminal block|spacer|spacers|standoff|standoffs|stand off|"
     "stand offs|shaft collar|collar|washing machine|nut splitter|screw gun|thread locker|"
     "threadlocker|magnet|magnets|bearing|bearings|cable tie|cable ties|o ring|o rings",
     .sense = SAYS_NOT},
};
/* clang-format on */

const lexicon_phrase *lexicon_phrase_at(size_t i) {
    return i < sizeof phrases / sizeof *phrases ? &phrases[i] : NULL;
}
