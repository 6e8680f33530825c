/* draft_words.c: what headings, units and sums are called in the languages of the lists.
 *
 * All words are compared in the form of draft_plain. A heading that is wholly one of ours counts most, then one that
 * holds a telling word ("qty per robot"). Common practice, no source; a word that is missing only makes a guess less
 * sure, since a person can name the columns.
 */
#include <string.h>

#include "base/utf8.h"
#include "kit/draft_inside.h"

typedef struct {
    const char *words; /* separated by '|' */
    draft_role role, fallback;
    int strength;
} heading_row;

static const heading_row headings[] = {
    {"quantity|qty|quantities|qnty|quant|no of pieces|number of pieces|pieces|pcs|piece count|total quantity|total qty|"
     "quantity total|qty total|menge|anzahl|stuckzahl|stuck|stk|quantite|qte|cantidad|cant|quantita|qta|aantal|stuks|"
     "antal|mangd|how many",
     DRAFT_QUANTITY, DRAFT_NOT_USED, 3},
    {"quantity needed|quantity required|qty needed|qty required|amount|count|number required|number needed|needed|"
     "required|st|nombre|numero|n",
     DRAFT_QUANTITY, DRAFT_NOT_USED, 2},
    {"name|part name|component name|item name|component|components|part description|benennung|bezeichnung|teilename|"
     "benamning|denominazione|denominacion|nom|naam|benaming|onderdeel|komponente|bauteil",
     DRAFT_NAME, DRAFT_SPECIFICATION, 3},
    {"description|item|part|parts|what|article|beschreibung|teil|artikel|designation|beskrivning|descripcion|descrizione|"
     "omschrijving|nombre|pieza|piece|pezzo|material|thing",
     DRAFT_NAME, DRAFT_SPECIFICATION, 2},
    {"part number|part no|part nr|part #|part id|item number|item no|item id|article number|article no|artikelnummer|"
     "artikel nr|teilenummer|teile nr|sachnummer|sach nr|numero de piece|numero de pieza|codice|onderdeelnummer|"
     "artikelnr|pn|p n",
     DRAFT_NUMBER, DRAFT_MAKERS_NUMBER, 3},
    {"mfr part number|mfr part no|mfr part #|mfr no|mfr number|mfg part number|mfg part no|mpn|manufacturer part number|"
     "manufacturer part no|manufacturer part|manufacturer number|manufacturer no|maker s number|supplier part number|"
     "supplier part no|supplier part|supplier number|supplier no|distributor part number|distributor part no|"
     "vendor part number|vendor part no|order number|order no|order code|sku|catalog number|catalogue number|"
     "bestellnummer|bestell nr|herstellernummer|hersteller nr|herstellerteilenummer|bestallningsnummer|"
     "reference fabricant|reference fournisseur",
     DRAFT_MAKERS_NUMBER, DRAFT_NOT_USED, 3},
    {"unit|units|uom|unit of measure|einheit|mengeneinheit|unite|unidad|unita|eenheid|enhet", DRAFT_UNIT,
     DRAFT_NOT_USED, 3},
    {"specification|specifications|spec|specs|size|sizes|dimension|dimensions|value|details|abmessung|abmessungen|"
     "spezifikation|grosse|taille|tamano|dimensioni|maat|storlek|standard|norm|norme|norma|din|iso",
     DRAFT_SPECIFICATION, DRAFT_NOT_USED, 3},
    {"note|notes|remark|remarks|comment|comments|bemerkung|bemerkungen|hinweis|anmerkung|kommentar|commentaire|remarque|"
     "remarques|nota|notas|osservazioni|opmerking|opmerkingen|anmarkning|info",
     DRAFT_NOTE, DRAFT_NOT_USED, 3},
    {"box|box no|box number|carton|karton|kiste|caja|scatola|doos|lada", DRAFT_BOX, DRAFT_NOT_USED, 3},
    {"bag|bag no|bag number|beutel|tute|sachet|bolsa|busta|zak|pase", DRAFT_BAG, DRAFT_NOT_USED, 3},
    /* Known, and of no use to a kit. */
    {"price|unit price|cost|unit cost|total|total price|total cost|sum|preis|einzelpreis|gesamtpreis|prix|precio|prezzo|"
     "prijs|pris|link|links|url|source|shop|image|picture|photo|bild|supplier|distributor|vendor|manufacturer|mfr|maker|"
     "hersteller|lieferant|lead time|stock|in stock|date|currency|pos|position|line|row|nr|no|number|#|id|index|type|"
     "part type|category|optional|weight|mass|gewicht|material cost|datasheet|footprint|package|reference|references|"
     "designator|designators|status|pack quantity|pack qty|package quantity|minimum order quantity|moq|"
     "quantity on hand|qty on hand|quantity in stock|qty in stock",
     DRAFT_NOT_USED, DRAFT_NOT_USED, 3},
};

/* A word inside a longer heading. Those of no use come first: "quantity price" is a price. */
static const heading_row telling[] = {
    {"price|cost|costs|preis|prix|precio|prezzo|prijs|pris|link|links|url|source|image|picture|photo|stock|hand|min|"
     "minimum|moq|lead|supplier|distributor|vendor|weight|mass|gewicht|currency|date|pack|package",
     DRAFT_NOT_USED, DRAFT_NOT_USED, 2},
    {"quantity|qty|menge|anzahl|stuckzahl|quantite|qte|cantidad|quantita|aantal|antal", DRAFT_QUANTITY,
     DRAFT_NOT_USED, 2},
    {"name|bezeichnung|benennung|benamning", DRAFT_NAME, DRAFT_SPECIFICATION, 2},
    {"note|notes|remark|remarks|comment|comments|bemerkung|kommentar", DRAFT_NOTE, DRAFT_NOT_USED, 2},
};

text draft_plain(arena *a, text t) {
    text folded = utf8_fold(a, t, true);
    char *made = arena_alloc(a, folded.len + 1);
    size_t n = 0;
    for (size_t i = 0; i < folded.len; i++) {
        char c = folded.at[i];
        bool digit_before = i > 0 && folded.at[i - 1] >= '0' && folded.at[i - 1] <= '9';
        bool digit_after = i + 1 < folded.len && folded.at[i + 1] >= '0' && folded.at[i + 1] <= '9';
        bool kept = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '#' || (c & 0x80) ||
                    ((c == '.' || c == ',') && digit_before && digit_after);
        if (kept)
            made[n++] = c;
        else if (n && made[n - 1] != ' ')
            made[n++] = ' ';
    }
    return text_trim((text){made, n});
}

static bool is_one_of(text word, const char *words) {
    text rest = text_of(words), one;
    while (text_next_piece(&rest, '|', &one))
        if (text_equal(one, word))
            return true;
    return false;
}

/* Without what stands in brackets: "Quantity (pcs)", "Menge [kg]". */
static text without_brackets(text heading) {
    for (size_t i = 1; i < heading.len; i++)
        if (heading.at[i] == '(' || heading.at[i] == '[')
            return text_trim(text_slice(heading, 0, i));
    return heading;
}

static bool holds_word(text plain, const char *words) {
    text word;
    while (text_next_piece(&plain, ' ', &word))
        if (is_one_of(word, words))
            return true;
    return false;
}

/* `role` DRAFT_ROLES: any. */
static draft_heading look_up(arena *a, text heading, draft_role role) {
    text plain = draft_plain(a, without_brackets(text_trim(heading)));
    draft_heading none = {DRAFT_NOT_USED, DRAFT_NOT_USED, 0, false, false};
    if (!plain.len)
        return none;
    for (size_t i = 0; i < sizeof headings / sizeof headings[0]; i++) {
        const heading_row *h = &headings[i];
        if ((role == DRAFT_ROLES || h->role == role) && is_one_of(plain, h->words))
            return (draft_heading){h->role, h->fallback, h->strength, true, true};
    }
    for (size_t i = 0; i < sizeof telling / sizeof telling[0]; i++) {
        const heading_row *h = &telling[i];
        if (holds_word(plain, h->words))
            return role == DRAFT_ROLES || h->role == role
                       ? (draft_heading){h->role, h->fallback, h->strength, true, false}
                       : none;
    }
    return none;
}

draft_heading draft_heading_of(arena *a, text heading) {
    return look_up(a, heading, DRAFT_ROLES);
}

draft_heading draft_heading_for(arena *a, text heading, draft_role role) {
    return look_up(a, heading, role);
}

bool draft_is_total_word(arena *a, text cell) {
    return is_one_of(
        draft_plain(a, cell),
        "total|totals|sum|subtotal|sub total|grand total|total cost|total price|total weight|total parts|"
        "total pieces|overall total|summe|gesamt|gesamtsumme|zwischensumme|insgesamt|totalt|summa|delsumma|"
        "somme|totaux|sous total|suma|totale|totali|subtotale|totaal|subtotaal|som");
}

typedef struct {
    const char *words;
    draft_unit unit;
} unit_row;

static const unit_row units[] = {
    {"piece|pieces|pc|pcs|pce|pces|ea|each|unit|units|nos|off|stuck|stucke|stk|st|styck|pz|pza|pzas|pieza|piezas|pezzo|"
     "pezzi|ud|uds|unidad|unidades|stuks|x",
     DRAFT_PIECES},
    {"pack|packs|pk|pks|pkt|pck|pcks|packet|packets|package|packages|pkg|pkgs|packung|packungen|paket|pakete|paquet|"
     "paquets|paquete|paquetes|pacco|pacchi|pak|pakken|forpackning|bag|bags|box|boxes|beutel|sachet|sachets|set|sets|kit|"
     "kits|satz|sats|roll|rolls|rolle|rollen|rulle|spool|spools",
     DRAFT_PACKS},
    {"kg|kgs|kilo|kilos|kilogram|kilograms|kilogramm|kilogramme|kilogrammes", DRAFT_KG},
    {"g|gr|gram|grams|gramm|gramme|grammes", DRAFT_G},
    {"mg|milligram|milligrams", DRAFT_MG},
    {"m|mtr|mtrs|meter|meters|metre|metres|lfm", DRAFT_M},
    {"cm|centimeter|centimeters|centimetre|centimetres|zentimeter", DRAFT_CM},
    {"mm|millimeter|millimeters|millimetre|millimetres", DRAFT_MM},
    {"l|ltr|liter|liters|litre|litres", DRAFT_L},
    {"ml|milliliter|milliliters|millilitre|millilitres", DRAFT_ML},
};

bool draft_unit_read(arena *a, text word, draft_unit *out) {
    word = text_trim(word);
    text plain = draft_plain(a, word);
    /* A capital M or G alone means something else as often as metre or gram. */
    if (plain.len == 1 && (word.at[0] == 'M' || word.at[0] == 'G'))
        return false;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (is_one_of(plain, units[i].words)) {
            *out = units[i].unit;
            return true;
        }
    }
    return false;
}

const char *draft_unit_word(draft_unit unit) {
    static const char *const words[] = {"pieces", "packs", "kg", "g", "mg", "m", "cm", "mm", "l", "ml"};
    return words[unit];
}

const char *draft_role_word(draft_role role) {
    static const char *const words[] = {"not used",       "name",          "quantity", "unit", "number",
                                        "maker's number", "specification", "note",     "box",  "bag"};
    return words[role];
}

const char *draft_trust_word(draft_trust trust) {
    static const char *const words[] = {"named", "sure", "likely", "a guess"};
    return words[trust];
}

const char *draft_encoding_word(draft_encoding encoding) {
    static const char *const words[] = {"UTF-8", "UTF-16 LE", "UTF-16 BE", "Windows-1252", ""};
    return words[encoding];
}

bool draft_encoding_read(text word, draft_encoding *out) {
    static const char *const words[] = {"utf-8", "utf-16le", "utf-16be", "windows-1252"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (text_equal_nocase(word, text_of(words[i]))) {
            *out = (draft_encoding)i;
            return true;
        }
    }
    return false;
}

bool draft_separator_read(text word, char *out) {
    *out = (char)(text_equal_nocase(word, TEXT("comma"))       ? ','
                  : text_equal_nocase(word, TEXT("semicolon")) ? ';'
                  : text_equal_nocase(word, TEXT("tab"))       ? '\t'
                                                               : 0);
    return *out != 0;
}

bool draft_mark_read(text word, draft_mark *out) {
    *out = text_equal_nocase(word, TEXT("point"))   ? DRAFT_POINT
           : text_equal_nocase(word, TEXT("comma")) ? DRAFT_COMMA
                                                    : DRAFT_ANY_MARK;
    return *out != DRAFT_ANY_MARK;
}

void draft_column_letters(uint32_t place, char out[8]) {
    char backwards[8];
    int n = 0;
    for (uint64_t rest = (uint64_t)place + 1; rest && n < 7; rest = (rest - 1) / 26)
        backwards[n++] = (char)('A' + (rest - 1) % 26);
    for (int i = 0; i < n; i++)
        out[i] = backwards[n - 1 - i];
    out[n] = '\0';
}

text draft_unit_text(arena *a, const draft_row *row) {
    if (row->unit == DRAFT_PIECES)
        return TEXT("");
    if (row->unit == DRAFT_PACKS)
        return row->pack_of ? arena_format(a, "pack of %lld", (long long)row->pack_of) : TEXT("pack");
    return text_of(draft_unit_word(row->unit));
}
