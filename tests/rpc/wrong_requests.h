// Good requests to ChartService and changes that make each of them wrong by itself.
#ifndef ROWPROOF_TESTS_RPC_WRONG_REQUESTS_H_
#define ROWPROOF_TESTS_RPC_WRONG_REQUESTS_H_

#include <functional>
#include <limits>
#include <vector>

#include "rowproof/v1/chart_service.pb.h"

namespace rowproof::rpc {

inline constexpr double kNan = std::numeric_limits<double>::quiet_NaN();

template <typename Message>
using WrongChanges = std::vector<std::function<void(Message&)>>;

// Yarns of the border, B and A, in this order.
v1::Materials GoodMaterials();
WrongChanges<v1::Materials> WrongMaterials();

// For a design that holds a picture of five rows and stitches.
WrongChanges<v1::Design> WrongDesigns();

// For a file of two rows and stitches in black and white.
WrongChanges<v1::ChartFile> WrongFiles();

// A swatch and a piece.
v1::CalibrateYarnRequest GoodCalibration();
WrongChanges<v1::CalibrateYarnRequest> WrongCalibrations();

}  // namespace rowproof::rpc

#endif  // ROWPROOF_TESTS_RPC_WRONG_REQUESTS_H_
