#include "services/addresses/loopback.h"

#include <arpa/inet.h>

#include <string>

namespace rowproof::addresses {

bool IsLoopback(std::string_view address) {
  if (address.starts_with("unix:")) return true;
  if (address == "[::1]") return true;
  const std::string host(address.substr(0, address.rfind(':')));
  if (host.find('\0') != std::string::npos) return false;
  if (host == "localhost" || host == "[::1]") return true;
  in_addr parsed{};
  // Not by the first letters: "127.example.org" is somebody else's machine.
  if (inet_pton(AF_INET, host.c_str(), &parsed) != 1) return false;
  return (ntohl(parsed.s_addr) >> 24) == 127;
}

}  // namespace rowproof::addresses
