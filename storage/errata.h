// Rows of errata and their confirmations. Every function throws libpqxx's exceptions, which end in
// Database, and runs inside a transaction.
#ifndef ROWPROOF_STORAGE_ERRATA_H_
#define ROWPROOF_STORAGE_ERRATA_H_

#include <optional>
#include <string>
#include <vector>

#include "services/domain/faults/erratum.h"
#include "services/domain/identifiers.h"
#include "storage/database/admission.h"
#include "storage/database/transaction.h"

namespace rowproof::storage {

struct ConfirmationRow {
  SeatId seat;
  faults::Confirmation confirmation = faults::Confirmation::kMetItToo;
  Moment confirmed_at;
};

struct ErratumRow {
  PatternId pattern;
  CallId call;
  ErratumId id;
  SeatId seat;
  std::string size;        // the seat's
  int first_report = 0;    // number of the revision that first reported it
  int last_report = 0;     // and of the newest that does
  int version_number = 0;  // that last_report was worked from: entry.row counts in its rows
  faults::Erratum entry;   // as last_report says it
  // Row of the chart as drawn, from 1; 0: no row. Stitches of the expanded size; 0: the whole row.
  int chart_row = 0;
  faults::StitchRange stitches;
  bool withdrawn = false;  // the seat's newest report no longer holds it
  faults::ErratumDecision decision;
  std::optional<Moment> decided_at;
  Moment listed_at;
  std::vector<ConfirmationRow> confirmations;  // by seat
};

std::optional<ErratumRow> LoadErratum(Transaction& transaction, const PatternId& pattern,
                                      const CallId& call, const ErratumId& erratum);

struct ErrataFilter {
  std::optional<faults::ErratumState> state;
  bool withdrawn_too = false;
};
// In the order (chart_row, id), after (after_row, after_id) if after_row is not negative.
std::vector<ErratumRow> ListErrata(Transaction& transaction, const PatternId& pattern,
                                   const CallId& call, const ErrataFilter& filter, int after_row,
                                   const ErratumId& after_id, int limit);

void UpdateDecision(Transaction& transaction, const ErratumRow& erratum);
// Replaces the seat's earlier confirmation.
void UpsertConfirmation(Transaction& transaction, const ErratumRow& erratum,
                        const ConfirmationRow& confirmation);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_ERRATA_H_
