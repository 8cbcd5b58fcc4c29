// Addresses that never leave the machine. Thread-safe.
#ifndef ROWPROOF_SERVICES_ADDRESSES_LOOPBACK_H_
#define ROWPROOF_SERVICES_ADDRESSES_LOOPBACK_H_

#include <string_view>

namespace rowproof::addresses {

// True for localhost, 127.0.0.0/8 (RFC 1122, 3.2.1.3) and [::1] (RFC 4291, 2.5.3), with a port or
// without, and for unix:PATH. No name is looked up.
bool IsLoopback(std::string_view address);

}  // namespace rowproof::addresses

#endif  // ROWPROOF_SERVICES_ADDRESSES_LOOPBACK_H_
