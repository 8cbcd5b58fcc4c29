// What one tester measured, with the prediction for that tester. Used by ReconcileReports. Pure;
// thread-safe.
#ifndef ROWPROOF_SERVICES_DOMAIN_RECONCILE_TESTER_PREDICTIONS_H_
#define ROWPROOF_SERVICES_DOMAIN_RECONCILE_TESTER_PREDICTIONS_H_

#include <string>
#include <vector>

#include "services/domain/reconcile/reconciliation.h"

namespace rowproof::reconcile {

struct Prediction {
  Quantity quantity = Quantity::kYarnA;
  // Theta and outliers are not filled in.
  MeasurementResult result;
  bool slipped = false;  // a likely slip concerns it
};

// Everything that the report measured and the estimate predicts; a sentence in `left_out` for what
// cannot be compared.
std::vector<Prediction> PredictFor(const TesterReport& report, std::vector<std::string>* left_out);

}  // namespace rowproof::reconcile

#endif  // ROWPROOF_SERVICES_DOMAIN_RECONCILE_TESTER_PREDICTIONS_H_
