/* views.c: the views of a build file; docs/build-file.md explains each column.
 *
 * They are made anew at each migration, so they may change with the program. A view reads the state tables and the
 * copied kit, never the other way round: nothing in the program reads a view.
 */
#include "store/views.h"

#define AT(column) "datetime(" column ", 'unixepoch')"
#define DAY(column) "date(" column " * 86400, 'unixepoch')"
#define WHO(person)                                                                                          \
    "(SELECT CASE WHEN name = '' THEN person ELSE name END FROM people WHERE person = " person ")"

const store_view store_views[] = {
    {"journal_told",
     "SELECT j.entry, j.act, " AT("j.at_s") " AS at, " WHO(
         "j.person") " AS who, j.device, j.verb,"
                     " j.container, j.line, j.part, j.usable, j.damaged, j.in_transit, j.mass_g, j.piece, j.millivolts,"
                     " " DAY(
                         "j.day") " AS day, j.instead, j.undoes, j.about, j.note, j.step, j.test,"
                                  " j.milli, j.minutes, j.people, j.from_place, j.to_place, u.by_entry AS undone_by"
                                  " FROM journal j LEFT JOIN state_undone u ON u.entry = j.entry"},
    {"row_stock",
     "SELECT r.container, CAST(r.line AS INTEGER) AS line, r.part, p.name,"
     " CAST(r.quantity AS INTEGER) AS expected, CASE r.unit WHEN '' THEN 'piece' ELSE r.unit END AS unit,"
     " c.entry IS NOT NULL AS counted,"
     " coalesce(c.usable, 0) + coalesce(d.drawn, 0) + coalesce(a.usable, 0) AS usable,"
     " coalesce(c.damaged, 0) + coalesce(a.damaged, 0) AS damaged,"
     " CASE WHEN c.entry IS NULL THEN 0 ELSE max(0, CAST(r.quantity AS INTEGER) - c.usable - c.damaged"
     "  - coalesce(d.drawn, 0) - coalesce(a.usable, 0) - coalesce(a.damaged, 0)) END AS missing,"
     " CASE WHEN c.entry IS NULL THEN 0 ELSE max(0, c.usable + coalesce(d.drawn, 0) + coalesce(a.usable, 0)"
     "  - CAST(r.quantity AS INTEGER)) END AS extra,"
     " coalesce(c.times, 0) AS times_counted, c.note,"
     " " WHO("j.person") " AS who, " AT(
         "j.at_s") " AS at"
                   " FROM kit_rows r JOIN kit_parts p ON p.part = r.part"
                   " LEFT JOIN state_counts c ON c.container = r.container AND c.line = CAST(r.line AS INTEGER)"
                   " LEFT JOIN journal j ON j.entry = c.entry"
                   " LEFT JOIN (SELECT s.container, s.line, sum(s.usable) AS usable, sum(s.damaged) AS damaged"
                   "  FROM state_arrivals s LEFT JOIN state_counts k ON k.container = s.container AND k.line = s.line"
                   "  WHERE s.entry > coalesce(k.entry, 0) GROUP BY s.container, s.line) a"
                   "  ON a.container = r.container AND a.line = CAST(r.line AS INTEGER)"
                   " LEFT JOIN (SELECT m.container, m.line,"
                   "  sum(CASE m.from_place WHEN 'row' THEN m.quantity ELSE -m.quantity END) AS drawn"
                   "  FROM state_moves m JOIN state_counts k ON k.container = m.container AND k.line = m.line"
                   "  WHERE m.entry < k.entry GROUP BY m.container, m.line) d"
                   "  ON d.container = r.container AND d.line = CAST(r.line AS INTEGER)"
                   " ORDER BY r.sheet_row"},
    {"part_stock",
     "SELECT p.part, p.name, coalesce(sum(r.expected), 0) AS expected, coalesce(sum(r.usable), 0)"
     "  + (SELECT coalesce(sum(quantity), 0) FROM state_finds f WHERE f.part = p.part)"
     "  + (SELECT coalesce(sum(usable), 0) FROM state_arrivals s WHERE s.part = p.part"
     "     AND s.container IS NULL) AS usable,"
     " coalesce(sum(r.damaged), 0)"
     "  + (SELECT coalesce(sum(damaged), 0) FROM state_arrivals s WHERE s.part = p.part"
     "     AND s.container IS NULL) AS damaged,"
     " coalesce(sum(CASE WHEN r.counted THEN 0 ELSE r.expected END), 0) AS not_counted"
     " FROM kit_parts p LEFT JOIN row_stock r ON r.part = p.part GROUP BY p.part ORDER BY p.sheet_row"},
    {"container_check",
     "WITH RECURSIVE nest (container, outer) AS ("
     " SELECT container, container FROM kit_containers"
     " UNION ALL SELECT n.container, k.inside FROM nest n JOIN kit_containers k ON k.container = n.outer"
     " WHERE k.inside <> '')"
     " SELECT k.container, k.name, k.label, count(r.line) AS rows, coalesce(sum(r.counted), 0) AS counted,"
     " coalesce(sum(r.counted AND (r.usable <> r.expected OR r.damaged > 0)), 0) AS wrong,"
     " e.entry IS NOT NULL AS received, e.mass_g, e.damage, " AT(
         "e.at_s") " AS received_at"
                   " FROM kit_containers k JOIN nest n ON n.outer = k.container"
                   " LEFT JOIN row_stock r ON r.container = n.container"
                   " LEFT JOIN state_receipts e ON e.container = k.container"
                   " GROUP BY k.container ORDER BY k.sheet_row"},
    {"not_on_the_list",
     "SELECT f.container, f.what, f.part, f.quantity, " WHO("j.person") " AS who, " AT(
         "j.at_s") " AS at"
                   " FROM state_finds f JOIN journal j ON j.entry = f.entry ORDER BY f.entry"},
    {"promised",
     "SELECT s.part, p.name, s.quantity, " DAY("s.day") " AS day, " AT(
         "j.at_s") " AS said_at"
                   " FROM state_promises s JOIN kit_parts p ON p.part = s.part JOIN journal j ON j.entry = s.entry"
                   " ORDER BY s.day, s.part"},
};

const size_t store_n_views = sizeof store_views / sizeof store_views[0];
