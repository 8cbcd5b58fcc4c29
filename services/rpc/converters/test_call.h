// Test calls and seats between proto and domain, each once. Thread-safe.
#ifndef ROWPROOF_SERVICES_RPC_CONVERTERS_TEST_CALL_H_
#define ROWPROOF_SERVICES_RPC_CONVERTERS_TEST_CALL_H_

#include "absl/status/statusor.h"
#include "rowproof/v1/test_call.pb.h"
#include "rowproof/v1/test_call_service.pb.h"
#include "services/usecases/calls/seat_changes.h"
#include "services/usecases/calls/test_calls.h"

namespace rowproof::rpc {

// INVALID_ARGUMENT with the field below "settings" for a value that cannot be read; what the values
// mean is checked by testcalls::Validate.
absl::StatusOr<testcalls::CallSettings> FromProto(const v1::CallSettings& settings);

v1::CallSettings ToProto(const testcalls::CallSettings& settings);
v1::TestCall ToProto(const usecases::ReadTestCall& call);
v1::Seat ToProto(const testcalls::SeatRecord& seat);
v1::SeatChanges ToProto(const usecases::SeatChanges& changes);
v1::SendVersionResponse ToProto(const usecases::SentVersion& sent);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_CONVERTERS_TEST_CALL_H_
