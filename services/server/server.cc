#include "services/server/server.h"

#include <grpcpp/ext/proto_server_reflection_plugin.h>
#include <grpcpp/grpcpp.h>
#include <spdlog/spdlog.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <optional>
#include <thread>
#include <utility>
#include <vector>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/names/names.h"
#include "services/domain/status_macros.h"
#include "services/rpc/charts/chart_service.h"
#include "services/rpc/dispatcher.h"
#include "services/rpc/handlers/services.h"
#include "services/rpc/limited_service.h"
#include "services/rpc/local_charts.h"
#include "services/server/backup.h"
#include "services/server/embedded_postgres.h"
#include "services/server/health.h"
#include "services/server/logs.h"
#include "services/server/random_identifiers.h"
#include "services/usecases/accounts.h"
#include "services/usecases/calibrations.h"
#include "storage/database/migrate.h"

namespace rowproof::server {
namespace {

class SystemClock : public Clock {
 public:
  Moment Now() override {
    return std::chrono::time_point_cast<std::chrono::microseconds>(
        std::chrono::system_clock::now());
  }
};

class ThreadSleeper : public Sleeper {
 public:
  void SleepUntil(std::chrono::steady_clock::time_point end) override {
    std::this_thread::sleep_until(end);
  }
};

absl::StatusOr<std::string> ReadFile(const char* option, const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) return InvalidField(option, path, "a file that can be read");
  return std::string((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
}

absl::StatusOr<std::shared_ptr<grpc::ServerCredentials>> Credentials(
    const Configuration& configuration) {
  if (configuration.tls_certificate_file.empty()) return grpc::InsecureServerCredentials();
  ASSIGN_OR_RETURN(auto certificate,
                   ReadFile("--tls-certificate", configuration.tls_certificate_file));
  ASSIGN_OR_RETURN(auto key, ReadFile("--tls-key", configuration.tls_key_file));
  grpc::SslServerCredentialsOptions options;
  options.pem_key_cert_pairs.push_back({key, certificate});
  if (!configuration.client_certificates_file.empty()) {
    ASSIGN_OR_RETURN(auto authorities,
                     ReadFile("--client-certificates", configuration.client_certificates_file));
    options.pem_root_certs = authorities;
    options.client_certificate_request = GRPC_SSL_REQUEST_AND_REQUIRE_CLIENT_CERTIFICATE_AND_VERIFY;
  }
  return grpc::SslServerCredentials(options);
}

// The database that the configuration names, ready and of this build's schema.
struct Store {
  std::optional<EmbeddedPostgres> cluster;
  bool started_here = false;
  std::string connection;
  SystemClock clock;
  ThreadSleeper sleeper;
  DatabaseLog log;
  RandomIdentifiers identifiers;
  usecases::VersionCache versions;
  std::optional<storage::Database> database;
  std::optional<usecases::Application> application;

  Store() = default;
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;
  ~Store() {
    application.reset();
    database.reset();
    if (cluster.has_value() && started_here) cluster->Stop();
  }
};

// Dumps the private cluster before it is migrated; another database is its operator's to dump.
storage::BeforeMigration BackupOf(const Configuration& configuration, Store& store) {
  if (!store.cluster.has_value()) return nullptr;
  const Backup backup{store.connection, configuration.postgres_programs,
                      configuration.var + "/backups"};
  return [backup, &store](int migration) {
    auto name = BackUpBeforeMigration(backup, migration, store.clock.Now());
    if (name.ok()) spdlog::info("backup file={}", *name);
    return name.status();
  };
}

absl::StatusOr<std::unique_ptr<Store>> OpenStore(const Configuration& configuration,
                                                 bool migrate_any) {
  auto store = std::make_unique<Store>();
  // libpq's own default waits for a silent host without end.
  setenv("PGCONNECT_TIMEOUT", "2", 0);
  store->connection = configuration.database;
  if (configuration.database.empty()) {
    RETURN_IF_ERROR(LeaveRoot(configuration.var));
    store->cluster.emplace(configuration.var + "/postgres", configuration.postgres_programs);
    store->started_here = !store->cluster->Running();
    RETURN_IF_ERROR(store->cluster->Start());
    store->connection = store->cluster->Connection();
  }
  ASSIGN_OR_RETURN(auto migrations, storage::ReadMigrations(configuration.migrations));
  if (store->cluster.has_value() || migrate_any) {
    ASSIGN_OR_RETURN(auto applied, storage::Migrate(store->connection, migrations,
                                                    BackupOf(configuration, *store)));
    spdlog::info("migrations applied={} known={}", applied, migrations.size());
  } else if (auto s = storage::CheckSchema(store->connection, migrations); !s.ok()) {
    return s;
  }
  storage::DatabaseSettings settings;
  settings.connection = store->connection;
  settings.pool_size = configuration.pool_size;
  store->database.emplace(settings, store->clock, store->sleeper, store->log);
  store->application.emplace(
      usecases::Application{*store->database, store->identifiers, store->clock, store->versions});
  return store;
}

}  // namespace

struct Server::Parts {
  int shutdown_seconds = 30;
  std::unique_ptr<Store> store;
  RequestLog requests;
  rpc::Dispatcher dispatcher{requests};
  usecases::CalibrationLookup calibrations;
  std::vector<std::unique_ptr<rpc::Service>> services;
  std::vector<std::unique_ptr<rpc::LimitedService>> limited;
  std::vector<std::string> names;  // of the services, in full
  std::unique_ptr<grpc::Server> server;
  std::optional<HealthWatch> health;
  std::string address;

  void Serve(grpc::ServerBuilder& builder) {
    usecases::Application& application = *store->application;
    calibrations = [&application](usecases::RequestContext& context, usecases::SentMaterials sent) {
      return usecases::WithCalibration(application, context, std::move(sent));
    };
    services.push_back(rpc::MakeChartService(dispatcher, calibrations));
    for (const auto make :
         {rpc::MakeAccountService, rpc::MakeCalibrationService, rpc::MakePatternService,
          rpc::MakeTestCallService, rpc::MakeReportService, rpc::MakeReconciliationService,
          rpc::MakeReleaseService}) {
      services.push_back(make(dispatcher, application));
    }
    for (const auto& service : services) {
      names.push_back(service->full_name());
      limited.push_back(std::make_unique<rpc::LimitedService>(*service, service->full_name()));
      builder.RegisterService(limited.back().get());
    }
  }
};

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

absl::StatusOr<std::unique_ptr<Server>> Server::Start(const Configuration& configuration) {
  RETURN_IF_ERROR(Validate(configuration));
  ASSIGN_OR_RETURN(auto credentials, Credentials(configuration));
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, false));
  auto parts = std::make_unique<Parts>();
  parts->shutdown_seconds = configuration.shutdown_seconds;
  parts->store = std::move(store);

  grpc::EnableDefaultHealthCheckService(true);
  grpc::reflection::InitProtoReflectionServerBuilderPlugin();
  grpc::ServerBuilder builder;
  int port = 0;
  builder.AddListeningPort(configuration.listen, credentials, &port);
  // Two servers on one port would each get half of the requests.
  builder.AddChannelArgument(GRPC_ARG_ALLOW_REUSEPORT, 0);
  // LimitedService looks at a request's size. The size of a compressed one is not known before it
  // is unpacked.
  builder.SetMaxReceiveMessageSize(-1);
  builder.SetCompressionAlgorithmSupportStatus(GRPC_COMPRESS_GZIP, false);
  builder.SetCompressionAlgorithmSupportStatus(GRPC_COMPRESS_DEFLATE, false);
  builder.SetMaxSendMessageSize(rpc::kLargestAnswerBytes);
  grpc::ResourceQuota quota("rowproofd");
  quota.SetMaxThreads(configuration.threads);
  builder.SetResourceQuota(quota);
  // Threads that have served a request wait for the next one instead of ending.
  builder.SetSyncServerOption(grpc::ServerBuilder::SyncServerOption::MAX_POLLERS,
                              configuration.threads / 4);
  parts->Serve(builder);
  parts->server = builder.BuildAndStart();
  if (parts->server == nullptr || port == 0) {
    return InvalidField("--listen", configuration.listen, "a free address on this machine");
  }
  parts->address =
      configuration.listen.substr(0, configuration.listen.rfind(':') + 1) + std::to_string(port);
  Store* opened = parts->store.get();
  parts->health.emplace(
      *opened->database, *parts->server->GetHealthCheckService(), parts->names, [opened] {
        if (opened->cluster.has_value() && !opened->cluster->Running()) {
          opened->cluster->Start().IgnoreError();  // its log says why; the next second tries again
        }
      });
  return std::unique_ptr<Server>(new Server(std::move(parts)));
}

Server::~Server() {
  const std::chrono::seconds granted(parts_->shutdown_seconds);
  // gRPC cancels what still runs then, which a statement that waits for a lock does not hear of.
  parts_->store->database->EndAt(std::chrono::steady_clock::now() + granted);
  parts_->server->Shutdown(std::chrono::system_clock::now() + granted);
  parts_->server->Wait();
  parts_->health.reset();
  // The cluster belongs to the server, even if another process started it: a killed server leaves
  // it running.
  parts_->store->started_here = parts_->store->cluster.has_value();
}

std::string Server::address() const { return parts_->address; }

absl::StatusOr<int> MigrateOnly(const Configuration& configuration) {
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, true));
  return 0;
}

absl::StatusOr<NewDesigner> CreateDesigner(const Configuration& configuration,
                                           const std::string& display_name,
                                           const std::string& mail_address) {
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, false));
  ASSIGN_OR_RETURN(auto made,
                   usecases::CreateDesigner(*store->application, display_name, mail_address));
  return NewDesigner{ToString(AccountName{made.account}), made.secret};
}

absl::StatusOr<int> AllowPatterns(const Configuration& configuration, const std::string& account) {
  ASSIGN_OR_RETURN(auto name, ParseName<AccountName>("ACCOUNT", account));
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, false));
  RETURN_IF_ERROR(usecases::AllowPatterns(*store->application, name));
  return 0;
}

}  // namespace rowproof::server
