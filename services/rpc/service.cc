#include "services/rpc/service.h"

#include <google/protobuf/descriptor.h>
#include <grpcpp/impl/rpc_method.h>
#include <grpcpp/impl/rpc_service_method.h>

#include <algorithm>

#include "services/domain/check.h"

namespace rowproof::rpc {

Service::Service(const Dispatcher& dispatcher, const std::string& name,
                 const std::vector<Method>& methods)
    : full_name_("rowproof.v1." + name) {
  const google::protobuf::ServiceDescriptor* declared =
      google::protobuf::DescriptorPool::generated_pool()->FindServiceByName(full_name_);
  ROWPROOF_CHECK(declared != nullptr);
  ROWPROOF_CHECK(methods.size() == static_cast<size_t>(declared->method_count()));
  for (int i = 0; i < declared->method_count(); ++i) {
    const google::protobuf::MethodDescriptor& wanted = *declared->method(i);
    const auto method = std::find_if(methods.begin(), methods.end(), [&wanted](const Method& each) {
      return each.name == wanted.name();
    });
    ROWPROOF_CHECK(method != methods.end());
    ROWPROOF_CHECK(method->request == wanted.input_type());
    ROWPROOF_CHECK(method->response == wanted.output_type());
    paths_.push_back("/" + full_name_ + "/" + method->name);
    // gRPC takes ownership of both.
    AddMethod(new grpc::internal::RpcServiceMethod(
        paths_.back().c_str(), grpc::internal::RpcMethod::NORMAL_RPC,
        method->make_handler(dispatcher, name + "." + method->name).release()));
  }
}

}  // namespace rowproof::rpc
