// A private PostgreSQL cluster for one run of a test program, and a database for each test.
#ifndef ROWPROOF_TESTS_SUPPORT_TEST_CLUSTER_H_
#define ROWPROOF_TESTS_SUPPORT_TEST_CLUSTER_H_

#include <string>

namespace rowproof::testing {

// The cluster starts at the first use, in a folder of its own below the temporary folder. A process
// beside the tests stops it and removes the folder once the test program is gone, however it ended.
// A program run as root goes on as user postgres: PostgreSQL refuses root. Used by one thread.
class TestCluster {
 public:
  // Started and its template database migrated. Ends the program where that cannot be.
  static TestCluster& Get();

  // libpq connection string of a new database, with all migrations or empty.
  std::string NewDatabase(bool migrated);
  void DropDatabase(const std::string& connection);
  // Folder of the server's Unix socket.
  std::string socket_folder() const { return folder_ + "/s"; }

 private:
  TestCluster();

  std::string folder_;
  std::string administration_;  // connection string of a database that no test uses
  int made_ = 0;
};

// A database that lives as long as the object: a test declares it before what connects to it.
class TestDatabase {
 public:
  enum class Schema { kMigrated, kEmpty };
  explicit TestDatabase(Schema schema = Schema::kMigrated)
      : connection_(TestCluster::Get().NewDatabase(schema == Schema::kMigrated)) {}
  ~TestDatabase() { TestCluster::Get().DropDatabase(connection_); }
  TestDatabase(const TestDatabase&) = delete;
  TestDatabase& operator=(const TestDatabase&) = delete;

  const std::string& connection() const { return connection_; }

 private:
  const std::string connection_;
};

}  // namespace rowproof::testing

#endif  // ROWPROOF_TESTS_SUPPORT_TEST_CLUSTER_H_
