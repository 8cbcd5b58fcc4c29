// The services that need storage, each in a file of this folder. All are thread-safe; dispatcher
// and application outlive them.
#ifndef ROWPROOF_SERVICES_RPC_HANDLERS_SERVICES_H_
#define ROWPROOF_SERVICES_RPC_HANDLERS_SERVICES_H_

#include <memory>

#include "services/rpc/dispatcher.h"
#include "services/rpc/service.h"
#include "services/usecases/application.h"

namespace rowproof::rpc {

std::unique_ptr<Service> MakeAccountService(const Dispatcher& dispatcher,
                                            usecases::Application& application);
std::unique_ptr<Service> MakeCalibrationService(const Dispatcher& dispatcher,
                                                usecases::Application& application);
std::unique_ptr<Service> MakePatternService(const Dispatcher& dispatcher,
                                            usecases::Application& application);
std::unique_ptr<Service> MakeReconciliationService(const Dispatcher& dispatcher,
                                                   usecases::Application& application);
std::unique_ptr<Service> MakeReleaseService(const Dispatcher& dispatcher,
                                            usecases::Application& application);
std::unique_ptr<Service> MakeReportService(const Dispatcher& dispatcher,
                                           usecases::Application& application);
std::unique_ptr<Service> MakeTestCallService(const Dispatcher& dispatcher,
                                             usecases::Application& application);

}  // namespace rowproof::rpc

#endif  // ROWPROOF_SERVICES_RPC_HANDLERS_SERVICES_H_
