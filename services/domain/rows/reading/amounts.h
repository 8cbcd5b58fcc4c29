// How often a group is worked, and how far a repeat goes: "12 (16, 20) times", "twice", "across",
// "to last 2 sts", "11 more times".
#ifndef ROWPROOF_SERVICES_DOMAIN_ROWS_READING_AMOUNTS_H_
#define ROWPROOF_SERVICES_DOMAIN_ROWS_READING_AMOUNTS_H_

#include "services/domain/rows/reading/row.h"

namespace rowproof::rows {

struct Amount {
  bool until = false;        // `count` stitches of the row below are left; else `count` times
  bool more = false;         // times besides those already worked
  bool in_all = false;       // "in all", "in total"
  bool plain_times = false;  // "12 times", "twice": neither "more" nor "in all"
  SizedCount count;
};

// At what may be an amount. Nothing is passed if there is none.
Match ReadAmount(RowReading& reading, Amount* amount);

// "across", "around", "to end", "to last N sts", "until N sts remain".
Match ReadUntil(RowReading& reading, SizedCount* left);

}  // namespace rowproof::rows

#endif  // ROWPROOF_SERVICES_DOMAIN_ROWS_READING_AMOUNTS_H_
