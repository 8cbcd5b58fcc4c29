#include "services/rpc/limited_service.h"

#include <google/protobuf/descriptor.h>
#include <google/protobuf/stubs/logging.h>
#include <grpc/byte_buffer.h>
#include <grpcpp/impl/rpc_service_method.h>

#include "services/domain/check.h"
#include "services/domain/errors.h"
#include "services/rpc/local_charts.h"
#include "services/rpc/status.h"

namespace rowproof::rpc {
namespace {

class LimitedHandler : public grpc::internal::MethodHandler {
 public:
  explicit LimitedHandler(grpc::internal::MethodHandler* handler) : handler_(*handler) {}

  // With the status of a refused request, the handler only sends it.
  void RunHandler(const HandlerParameter& parameter) override { handler_.RunHandler(parameter); }

  void* Deserialize(grpc_call* call, grpc_byte_buffer* request, grpc::Status* status,
                    void** data) override {
    const size_t bytes = request == nullptr ? 0 : grpc_byte_buffer_length(request);
    if (bytes <= size_t{kLargestRequestBytes}) {
      return handler_.Deserialize(call, request, status, data);
    }
    grpc_byte_buffer_destroy(request);  // ours, as it would be the handler's
    *status = ToGrpc(RequestTooLarge(bytes, kLargestRequestBytes));
    return nullptr;
  }

 private:
  grpc::internal::MethodHandler& handler_;
};

}  // namespace

LimitedService::LimitedService(grpc::Service& service, const std::string& full_name) {
  const auto* described =
      google::protobuf::DescriptorPool::generated_pool()->FindServiceByName(full_name);
  ROWPROOF_CHECK(described != nullptr);
  // Protobuf would write about each malformed request to standard error, past the log, and wait
  // there for whoever reads it.
  google::protobuf::SetLogHandler(nullptr);
  for (int i = 0; i < described->method_count(); ++i) {
    const auto& method = *described->method(i);
    ROWPROOF_CHECK(!method.client_streaming() && !method.server_streaming());
    paths_.push_back("/" + full_name + "/" + method.name());
    // Generated services add their methods in the order of their descriptor.
    AddMethod(new grpc::internal::RpcServiceMethod(
        paths_.back().c_str(), grpc::internal::RpcMethod::NORMAL_RPC,
        new LimitedHandler((service.*(&LimitedService::GetHandler))(i))));
  }
}

}  // namespace rowproof::rpc
