#include "services/server/listener.h"

#include <netdb.h>
#include <netinet/in.h>
#include <netinet/tcp.h>
#include <poll.h>
#include <spdlog/spdlog.h>
#include <sys/eventfd.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <utility>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::server {
namespace {

// After an error that does not go away by itself, such as no file or no memory left.
constexpr std::chrono::milliseconds kPause{50};
constexpr int kBacklog = 4096;  // the kernel takes net.core.somaxconn if that is less

struct Place {
  sockaddr_storage address{};
  socklen_t bytes = 0;
};

absl::Status Cannot(const std::string& listen, const std::string& reason) {
  return InvalidField("--listen", listen,
                      fmt::format("a free address on this machine ({})", reason));
}

absl::StatusOr<std::vector<Place>> PlacesOf(const ListenAddress& where, const std::string& listen) {
  if (where.host.empty()) {
    Place place;
    auto* unix_address = reinterpret_cast<sockaddr_un*>(&place.address);
    if (where.path.size() >= sizeof(unix_address->sun_path)) {
      return Cannot(listen, "the path is too long for a socket");
    }
    unix_address->sun_family = AF_UNIX;
    std::copy(where.path.begin(), where.path.end(), unix_address->sun_path);
    place.bytes = sizeof(sockaddr_un);
    return std::vector<Place>{place};
  }
  addrinfo wanted{};
  wanted.ai_socktype = SOCK_STREAM;
  wanted.ai_flags = AI_PASSIVE | AI_NUMERICSERV;
  addrinfo* found = nullptr;
  const int failed =
      getaddrinfo(where.host.c_str(), std::to_string(where.port).c_str(), &wanted, &found);
  if (failed != 0) return Cannot(listen, gai_strerror(failed));
  std::vector<Place> places;
  for (const addrinfo* each = found; each != nullptr; each = each->ai_next) {
    Place place;
    std::memcpy(&place.address, each->ai_addr, each->ai_addrlen);
    place.bytes = each->ai_addrlen;
    places.push_back(place);
  }
  freeaddrinfo(found);
  return places;
}

int PortOf(const sockaddr_storage& address) {
  if (address.ss_family == AF_INET) {
    return ntohs(reinterpret_cast<const sockaddr_in&>(address).sin_port);
  }
  if (address.ss_family == AF_INET6) {
    return ntohs(reinterpret_cast<const sockaddr_in6&>(address).sin6_port);
  }
  return 0;
}

void SetPort(sockaddr_storage& address, int port) {
  const auto value = htons(static_cast<uint16_t>(port));
  if (address.ss_family == AF_INET) reinterpret_cast<sockaddr_in&>(address).sin_port = value;
  if (address.ss_family == AF_INET6) reinterpret_cast<sockaddr_in6&>(address).sin6_port = value;
}

void Set(int socket, int level, int option, int value) {
  setsockopt(socket, level, option, &value, sizeof(value));
}

// A listening socket; -1, with errno.
int ListenAt(const Place& place) {
  const int family = place.address.ss_family;
  const int made = socket(family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
  if (made < 0) return -1;
  if (family == AF_UNIX) {
    // The socket of a server that was killed. One that listens is somebody's.
    const auto& path = reinterpret_cast<const sockaddr_un&>(place.address);
    if (connect(made, reinterpret_cast<const sockaddr*>(&path), place.bytes) != 0 &&
        errno == ECONNREFUSED) {
      unlink(path.sun_path);
    }
  } else {
    Set(made, SOL_SOCKET, SO_REUSEADDR, 1);
    // Accepted connections inherit it. Answers are whole messages.
    Set(made, IPPROTO_TCP, TCP_NODELAY, 1);
  }
  // [::] is IPv4 as well.
  if (family == AF_INET6) Set(made, IPPROTO_IPV6, IPV6_V6ONLY, 0);
  if (bind(made, reinterpret_cast<const sockaddr*>(&place.address), place.bytes) == 0 &&
      listen(made, kBacklog) == 0) {
    return made;
  }
  const int why = errno;
  close(made);
  errno = why;
  return -1;
}

void CloseAll(std::vector<int>& sockets) {
  for (const int socket : sockets) close(socket);
  sockets.clear();
}

// Sockets at all places, on one port, which is written to `port`. A name may have addresses that
// this machine has not.
absl::StatusOr<std::vector<int>> ListenAtAll(std::vector<Place> places, const std::string& listen,
                                             int& port) {
  std::vector<int> sockets;
  int why = EADDRNOTAVAIL;
  for (Place& place : places) {
    if (port > 0) SetPort(place.address, port);
    const int made = ListenAt(place);
    if (made < 0) {
      why = errno;
      if (why == EADDRNOTAVAIL || why == EAFNOSUPPORT) continue;
      CloseAll(sockets);
      return Cannot(listen, std::strerror(why));
    }
    socklen_t bytes = sizeof(place.address);
    getsockname(made, reinterpret_cast<sockaddr*>(&place.address), &bytes);
    port = PortOf(place.address);
    sockets.push_back(made);
  }
  if (sockets.empty()) return Cannot(listen, std::strerror(why));
  return sockets;
}

}  // namespace

void RaiseFileLimit() {
  rlimit files{};
  if (getrlimit(RLIMIT_NOFILE, &files) != 0) return;
  files.rlim_cur = files.rlim_max;
  setrlimit(RLIMIT_NOFILE, &files);
}

absl::StatusOr<std::unique_ptr<Listener>> Listener::Open(const std::string& listen) {
  std::unique_ptr<Listener> listener(new Listener);
  ASSIGN_OR_RETURN(listener->place_, ParseListenAddress(listen));
  ASSIGN_OR_RETURN(auto places, PlacesOf(listener->place_, listen));
  ASSIGN_OR_RETURN(listener->sockets_,
                   ListenAtAll(std::move(places), listen, listener->place_.port));
  listener->address_ = listener->place_.host.empty() ? listen
                                                     : listen.substr(0, listen.rfind(':') + 1) +
                                                           std::to_string(listener->place_.port);
  listener->wake_ = eventfd(0, EFD_CLOEXEC | EFD_NONBLOCK);
  return listener;
}

Listener::~Listener() {
  Stop();
  if (wake_ >= 0) close(wake_);
  if (place_.host.empty() && !place_.path.empty() && !address_.empty()) {
    unlink(place_.path.c_str());
  }
}

void Listener::Start(std::function<void(int, int)> take) {
  take_ = std::move(take);
  thread_ = std::thread([this] { Accept(); });
}

void Listener::Stop() {
  ending_ = true;
  const uint64_t one = 1;
  if (thread_.joinable()) {
    if (write(wake_, &one, sizeof(one)) < 0) ending_ = true;  // it looks within a second
    thread_.join();
  }
  CloseAll(sockets_);
}

absl::Status Listener::Replace() {
  Stop();
  uint64_t woken = 0;
  if (read(wake_, &woken, sizeof(woken)) < 0) woken = 0;  // it was not needed
  ending_ = false;
  ASSIGN_OR_RETURN(auto places, PlacesOf(place_, address_));
  ASSIGN_OR_RETURN(sockets_, ListenAtAll(std::move(places), address_, place_.port));
  thread_ = std::thread([this] { Accept(); });
  return absl::OkStatus();
}

void Listener::Accept() {
  std::vector<pollfd> watched;
  for (const int socket : sockets_) watched.push_back({socket, POLLIN, 0});
  watched.push_back({wake_, POLLIN, 0});
  while (!ending_) {
    if (poll(watched.data(), watched.size(), 1000) <= 0) continue;
    for (const pollfd& each : watched) {
      if (each.fd != wake_ && each.revents != 0 && !ending_) TakeFrom(each.fd);
    }
  }
}

void Listener::TakeFrom(int listening) {
  rlimit files{};
  getrlimit(RLIMIT_NOFILE, &files);
  const auto most = static_cast<int>(
      std::min<rlim_t>(files.rlim_cur, static_cast<rlim_t>(kMostConnections) + kReserve));
  Place peer;
  peer.bytes = sizeof(peer.address);
  const int connection = accept4(listening, reinterpret_cast<sockaddr*>(&peer.address), &peer.bytes,
                                 SOCK_CLOEXEC | SOCK_NONBLOCK);
  if (connection < 0) {
    // These concern one connection that is gone again (accept(2)).
    if (errno == EAGAIN || errno == EINTR || errno == ECONNABORTED || errno == EPROTO) return;
    spdlog::warn("listener accept={}", std::strerror(errno));
    std::this_thread::sleep_for(kPause);
    return;
  }
  ++accepted_;
  // gRPC would log the end of a connection that says nothing. A client that has the same port on
  // another machine at that moment connects again.
  const bool own = own_port_ > 0 && PortOf(peer.address) == own_port_;
  // The kernel gives the lowest free number: this many files are open.
  if (own || connection >= most - kReserve) {
    close(connection);
    return;
  }
  take_(listening, connection);
}

bool Listener::Answers(std::chrono::milliseconds longest) {
  Place place;
  place.bytes = sizeof(place.address);
  if (sockets_.empty() || getsockname(sockets_.front(), reinterpret_cast<sockaddr*>(&place.address),
                                      &place.bytes) != 0) {
    return false;
  }
  const int made = socket(place.address.ss_family, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
  if (made < 0) return true;  // no file is left: it cannot be told
  Place own;
  own.address.ss_family = place.address.ss_family;
  own.bytes = place.bytes;
  // A port first, so that it is known when the connection arrives.
  if (place.address.ss_family != AF_UNIX &&
      bind(made, reinterpret_cast<const sockaddr*>(&own.address), own.bytes) == 0 &&
      getsockname(made, reinterpret_cast<sockaddr*>(&own.address), &own.bytes) == 0) {
    own_port_ = PortOf(own.address);
  }
  const int64_t before = accepted_;
  bool answers =
      connect(made, reinterpret_cast<const sockaddr*>(&place.address), place.bytes) == 0 ||
      errno == EINPROGRESS || errno == EAGAIN;
  const auto end = std::chrono::steady_clock::now() + longest;
  while (answers && accepted_ == before) {
    if (std::chrono::steady_clock::now() >= end) answers = false;
    std::this_thread::sleep_for(std::chrono::milliseconds(5));
  }
  close(made);
  own_port_ = 0;
  return answers;
}

}  // namespace rowproof::server
