#include "tests/support/cutting_proxy.h"

#include <poll.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <array>
#include <cstdlib>
#include <filesystem>
#include <string_view>

#include "services/domain/check.h"

namespace rowproof::testing {
namespace {

constexpr char kSocketName[] = "/.s.PGSQL.5432";

sockaddr_un AddressIn(const std::string& folder) {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  const std::string path = folder + kSocketName;
  ROWPROOF_CHECK(path.size() < sizeof(address.sun_path));
  path.copy(address.sun_path, path.size());
  return address;
}

const sockaddr* Plain(const sockaddr_un& address) {
  return reinterpret_cast<const sockaddr*>(&address);
}

bool SendAll(int socket, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = send(socket, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<size_t>(sent));
  }
  return true;
}

}  // namespace

CuttingProxy::CuttingProxy(const std::string& server_folder) : server_folder_(server_folder) {
  std::string folder = (std::filesystem::temp_directory_path() / "rowproof-proxy-XXXXXX").string();
  ROWPROOF_CHECK(mkdtemp(folder.data()) != nullptr);
  folder_ = folder;
  listening_ = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const sockaddr_un address = AddressIn(folder_);
  ROWPROOF_CHECK(bind(listening_, Plain(address), sizeof(address)) == 0);
  ROWPROOF_CHECK(listen(listening_, 8) == 0);
  listener_ = std::thread([this] { Listen(); });
}

CuttingProxy::~CuttingProxy() {
  shutdown(listening_, SHUT_RDWR);
  listener_.join();
  for (std::thread& connection : connections_) connection.join();
  close(listening_);
  std::filesystem::remove_all(folder_);
}

void CuttingProxy::Listen() {
  while (true) {
    const int client = accept4(listening_, nullptr, nullptr, SOCK_CLOEXEC);
    if (client < 0) return;
    connections_.emplace_back([this, client] { Pass(client); });
  }
}

void CuttingProxy::Pass(int client) {
  const int server = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const sockaddr_un address = AddressIn(server_folder_);
  bool open = connect(server, Plain(address), sizeof(address)) == 0;
  std::array<char, 65536> buffer;
  while (open) {
    std::array<pollfd, 2> ends{{{client, POLLIN, 0}, {server, POLLIN, 0}}};
    if (poll(ends.data(), ends.size(), -1) < 0) break;
    for (size_t i = 0; open && i < ends.size(); ++i) {
      if (ends[i].revents == 0) continue;
      const ssize_t count = recv(ends[i].fd, buffer.data(), buffer.size(), 0);
      if (count <= 0) {
        open = false;
        break;
      }
      const std::string_view bytes(buffer.data(), static_cast<size_t>(count));
      // CommandComplete carries the command's tag, ended by a NUL.
      const bool committed = i == 1 && bytes.find(std::string_view("COMMIT\0", 7)) != bytes.npos;
      open = !(committed && !has_cut_.exchange(true)) && SendAll(ends[1 - i].fd, bytes);
    }
  }
  close(client);
  close(server);
}

}  // namespace rowproof::testing
