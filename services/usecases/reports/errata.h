// The errata of a call's reports. Thread-safe.
#ifndef ROWPROOF_SERVICES_USECASES_REPORTS_ERRATA_H_
#define ROWPROOF_SERVICES_USECASES_REPORTS_ERRATA_H_

#include <string>
#include <vector>

#include "absl/status/statusor.h"
#include "services/domain/faults/erratum.h"
#include "services/domain/names/names.h"
#include "services/usecases/application.h"

namespace rowproof::usecases {

absl::StatusOr<faults::ErratumRecord> GetErratum(Application& application, RequestContext& context,
                                                 const ErratumName& name);
struct ErrataPage {
  std::vector<faults::ErratumRecord> errata;
  bool more = false;
};
absl::StatusOr<ErrataPage> ListErrata(Application& application, RequestContext& context,
                                      const PatternId& pattern, const CallId& id,
                                      const faults::ErrataFilter& filter, int after_row,
                                      const ErratumId& after_id, int limit);
// `state`: accepted, declined, or open to reopen it.
absl::StatusOr<faults::ErratumRecord> DecideErratum(
    Application& application, RequestContext& context, const PatternId& pattern, const CallId& id,
    const ErratumId& erratum, faults::ErratumState state, const std::string& note);
absl::StatusOr<faults::ErratumRecord> ConfirmErratum(Application& application,
                                                     RequestContext& context,
                                                     const PatternId& pattern, const CallId& id,
                                                     const ErratumId& erratum,
                                                     faults::Confirmation confirmation);

}  // namespace rowproof::usecases

#endif  // ROWPROOF_SERVICES_USECASES_REPORTS_ERRATA_H_
