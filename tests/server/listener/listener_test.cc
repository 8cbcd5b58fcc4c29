// The server's own listening sockets.
#include "services/server/listener.h"

#include <arpa/inet.h>
#include <gtest/gtest.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <chrono>
#include <filesystem>
#include <string>
#include <thread>

namespace rowproof::server {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

// Counts connections, and closes each.
class Taker {
 public:
  std::function<void(int, int)> Take() {
    return [this](int, int connection) {
      close(connection);
      ++taken_;
    };
  }
  bool Took(int count) const {
    for (int i = 0; i < 500 && taken_ < count; ++i) std::this_thread::sleep_for(milliseconds(10));
    return taken_ == count;
  }

 private:
  std::atomic<int> taken_ = 0;
};

bool Connects(const std::string& address) {
  sockaddr_in place{};
  place.sin_family = AF_INET;
  place.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  place.sin_port = htons(static_cast<uint16_t>(std::stoi(address.substr(address.rfind(':') + 1))));
  const int made = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const bool connected =
      connect(made, reinterpret_cast<const sockaddr*>(&place), sizeof(place)) == 0;
  close(made);
  return connected;
}

// Ends every socket of this process that listens, as a fault in the kernel or in us would.
void BreakListeningSockets() {
  for (int file = 0; file < 1024; ++file) {
    int listens = 0;
    socklen_t bytes = sizeof(listens);
    if (getsockopt(file, SOL_SOCKET, SO_ACCEPTCONN, &listens, &bytes) == 0 && listens == 1) {
      shutdown(file, SHUT_RDWR);
    }
  }
}

TEST(ListenerTest, HandsOnWhatItAcceptsAndNotItsOwnQuestions) {
  auto listener = Listener::Open("127.0.0.1:0");
  ASSERT_TRUE(listener.ok()) << listener.status();
  Taker taker;
  (*listener)->Start(taker.Take());
  EXPECT_TRUE((*listener)->Answers(seconds(10)));
  EXPECT_TRUE(Connects((*listener)->address()));
  EXPECT_TRUE(taker.Took(1));
}

TEST(ListenerTest, IsReplacedAtTheSameAddress) {
  auto listener = Listener::Open("127.0.0.1:0");
  ASSERT_TRUE(listener.ok()) << listener.status();
  const std::string address = (*listener)->address();
  Taker taker;
  (*listener)->Start(taker.Take());
  BreakListeningSockets();
  EXPECT_FALSE((*listener)->Answers(milliseconds(200)));
  EXPECT_FALSE(Connects(address));
  ASSERT_TRUE((*listener)->Replace().ok());
  EXPECT_EQ((*listener)->address(), address);
  EXPECT_TRUE((*listener)->Answers(seconds(10)));
  EXPECT_TRUE(Connects(address));
  EXPECT_TRUE(taker.Took(1));
}

TEST(ListenerTest, SaysWhyItCannotListen) {
  auto listener = Listener::Open("127.0.0.1:0");
  ASSERT_TRUE(listener.ok());
  const auto again = Listener::Open((*listener)->address());
  EXPECT_NE(std::string(again.status().message()).find("(Address already in use)"),
            std::string::npos)
      << again.status();
  const auto elsewhere = Listener::Open("192.0.2.1:0");  // for documents only (RFC 5737)
  EXPECT_NE(std::string(elsewhere.status().message()).find("(Cannot assign requested address)"),
            std::string::npos)
      << elsewhere.status();
}

TEST(ListenerTest, TakesTheSocketOfAKilledServerAndNotOfALivingOne) {
  const std::string path =
      (std::filesystem::temp_directory_path() / ("rowproof-listener-" + std::to_string(getpid())))
          .string();
  sockaddr_un left{};
  left.sun_family = AF_UNIX;
  std::copy(path.begin(), path.end(), left.sun_path);
  const int killed = socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC, 0);
  ASSERT_EQ(bind(killed, reinterpret_cast<const sockaddr*>(&left), sizeof(left)), 0);
  close(killed);
  {
    auto listener = Listener::Open("unix:" + path);
    ASSERT_TRUE(listener.ok()) << listener.status();
    Taker taker;
    (*listener)->Start(taker.Take());
    EXPECT_TRUE((*listener)->Answers(seconds(10)));
    EXPECT_FALSE(Listener::Open("unix:" + path).ok());
    EXPECT_TRUE((*listener)->Answers(seconds(10)));
  }
  EXPECT_FALSE(std::filesystem::exists(path));
}

}  // namespace
}  // namespace rowproof::server
