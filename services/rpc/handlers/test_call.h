// Handlers of TestCallService.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_TEST_CALL_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_TEST_CALL_H_

#include "rowproof/v1/test_call_service.grpc.pb.h"
#include "services/rpc/desk.h"

namespace rowproof::rpc {

// Thread-safe.
class TestCallHandlers final : public v1::TestCallService::Service {
 public:
  explicit TestCallHandlers(const Desk& desk) : desk_(desk) {}

  grpc::Status CreateTestCall(grpc::ServerContext* context,
                              const v1::CreateTestCallRequest* request,
                              v1::TestCall* response) override;
  grpc::Status GetTestCall(grpc::ServerContext* context, const v1::GetTestCallRequest* request,
                           v1::TestCall* response) override;
  grpc::Status ListTestCalls(grpc::ServerContext* context, const v1::ListTestCallsRequest* request,
                             v1::ListTestCallsResponse* response) override;
  grpc::Status UpdateTestCall(grpc::ServerContext* context,
                              const v1::UpdateTestCallRequest* request,
                              v1::TestCall* response) override;
  grpc::Status OpenTestCall(grpc::ServerContext* context, const v1::OpenTestCallRequest* request,
                            v1::TestCall* response) override;
  grpc::Status CloseTestCall(grpc::ServerContext* context, const v1::CloseTestCallRequest* request,
                             v1::TestCall* response) override;
  grpc::Status ReopenTestCall(grpc::ServerContext* context,
                              const v1::ReopenTestCallRequest* request,
                              v1::TestCall* response) override;
  grpc::Status SendVersion(grpc::ServerContext* context, const v1::SendVersionRequest* request,
                           v1::SendVersionResponse* response) override;
  grpc::Status CreateSeat(grpc::ServerContext* context, const v1::CreateSeatRequest* request,
                          v1::Seat* response) override;
  grpc::Status ListSeats(grpc::ServerContext* context, const v1::ListSeatsRequest* request,
                         v1::ListSeatsResponse* response) override;
  grpc::Status GetSeat(grpc::ServerContext* context, const v1::GetSeatRequest* request,
                       v1::Seat* response) override;
  grpc::Status TakeSeat(grpc::ServerContext* context, const v1::TakeSeatRequest* request,
                        v1::TakeSeatResponse* response) override;
  grpc::Status GiveUpSeat(grpc::ServerContext* context, const v1::GiveUpSeatRequest* request,
                          v1::Seat* response) override;
  grpc::Status CancelSeat(grpc::ServerContext* context, const v1::CancelSeatRequest* request,
                          v1::Seat* response) override;
  grpc::Status GetSeatForm(grpc::ServerContext* context, const v1::GetSeatFormRequest* request,
                           v1::GetSeatFormResponse* response) override;
  grpc::Status GetSeatChanges(grpc::ServerContext* context,
                              const v1::GetSeatChangesRequest* request,
                              v1::SeatChanges* response) override;

 private:
  const Desk& desk_;
};

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_TEST_CALL_H_
