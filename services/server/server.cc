#include "services/server/server.h"

#include <grpcpp/ext/proto_server_reflection_plugin.h>
#include <grpcpp/grpcpp.h>
#include <spdlog/spdlog.h>

#include <chrono>
#include <cstdlib>
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
#include "services/server/folder_lock.h"
#include "services/server/health.h"
#include "services/server/listener.h"
#include "services/server/logs.h"
#include "services/server/random_identifiers.h"
#include "services/server/tls_files.h"
#include "services/usecases/accounts.h"
#include "services/usecases/calibrations.h"
#include "storage/database/migrate.h"
#include "storage/database/reachable.h"

namespace rowproof::server {
namespace {

// Messages and the state of connections and streams, in gRPC's count.
constexpr size_t kMostTransportBytes = size_t{1} << 30;

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

std::shared_ptr<grpc::ServerCredentials> Credentials(const TlsFiles& files) {
  if (files.certificate.empty()) return grpc::InsecureServerCredentials();
  grpc::SslServerCredentialsOptions options;
  options.pem_key_cert_pairs.push_back({files.key, files.certificate});
  if (!files.authorities.empty()) {
    options.pem_root_certs = files.authorities;
    options.client_certificate_request = GRPC_SSL_REQUEST_AND_REQUIRE_CLIENT_CERTIFICATE_AND_VERIFY;
  }
  return grpc::SslServerCredentials(options);
}

// The database that the configuration names, ready and of this build's schema.
struct Store {
  std::optional<FolderLock> lock;  // first, so that it is held until the rest has ended
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

// Who opens the database: the server, or an operator's command; one of these migrates any database.
enum class Purpose { kServe, kCommand, kMigrate };

// A command beside a server uses the server's cluster, and leaves starting and stopping it to the
// server.
absl::Status OpenCluster(const Configuration& configuration, Purpose purpose, Store& store) {
  EmbeddedPostgres& cluster =
      store.cluster.emplace(configuration.var + "/postgres", configuration.postgres_programs);
  store.connection = cluster.Connection();
  if (purpose != Purpose::kServe) {
    ASSIGN_OR_RETURN(store.lock, FolderLock::TakeForCommand(configuration.var));
    if (!store.lock.has_value()) return cluster.AwaitRunning();
  }
  store.started_here = !cluster.Running();
  return cluster.Start();
}

absl::StatusOr<std::unique_ptr<Store>> OpenStore(const Configuration& configuration,
                                                 Purpose purpose) {
  auto store = std::make_unique<Store>();
  // libpq's own default waits for a silent host without end.
  setenv("PGCONNECT_TIMEOUT", "2", 0);
  store->connection = configuration.database;
  // A command on another database leaves nothing in the folder.
  const bool uses_folder = purpose == Purpose::kServe || configuration.database.empty();
  RETURN_IF_ERROR(LeaveRoot(uses_folder ? configuration.var : ""));
  if (purpose == Purpose::kServe) {
    ASSIGN_OR_RETURN(store->lock, FolderLock::TakeToServe(configuration.var));
  }
  if (configuration.database.empty()) RETURN_IF_ERROR(OpenCluster(configuration, purpose, *store));
  RETURN_IF_ERROR(storage::CheckReachable(store->connection));
  ASSIGN_OR_RETURN(auto migrations, storage::ReadMigrations(configuration.migrations));
  if (store->cluster.has_value() || purpose == Purpose::kMigrate) {
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

// What one connection, and all together, may ask of the server. gRPC's own limits for the rest are
// what it has without these.
void Bound(grpc::ServerBuilder& builder, int threads) {
  builder.AddChannelArgument(GRPC_ARG_MAX_CONCURRENT_STREAMS, 100);
  builder.AddChannelArgument(GRPC_ARG_MAX_METADATA_SIZE, 16 * 1024);
  // From the connection's begin to its first settings, which a silent client never sends.
  builder.AddChannelArgument(GRPC_ARG_SERVER_HANDSHAKE_TIMEOUT_MS, 10'000);
  builder.AddChannelArgument(GRPC_ARG_MAX_CONNECTION_IDLE_MS, 600'000);
  builder.AddChannelArgument(GRPC_ARG_KEEPALIVE_TIME_MS, 60'000);
  builder.AddChannelArgument(GRPC_ARG_KEEPALIVE_TIMEOUT_MS, 20'000);
  // LimitedService looks at a request's size. The size of a compressed one is not known before it
  // is unpacked.
  builder.SetMaxReceiveMessageSize(-1);
  builder.SetCompressionAlgorithmSupportStatus(GRPC_COMPRESS_GZIP, false);
  builder.SetCompressionAlgorithmSupportStatus(GRPC_COMPRESS_DEFLATE, false);
  builder.SetMaxSendMessageSize(rpc::kLargestAnswerBytes);
  grpc::ResourceQuota quota("rowproofd");
  quota.SetMaxThreads(threads);
  // Above it gRPC reads less at a time and ends streams.
  quota.Resize(kMostTransportBytes);
  builder.SetResourceQuota(quota);
  // Threads that have served a request wait for the next one instead of ending.
  builder.SetSyncServerOption(grpc::ServerBuilder::SyncServerOption::MAX_POLLERS, threads / 4);
  // A thread that waits for the next request sees so late that the server shuts down (measured:
  // 10 s, gRPC's own value, after the last answer).
  builder.SetSyncServerOption(grpc::ServerBuilder::SyncServerOption::CQ_TIMEOUT_MSEC, 250);
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
  std::unique_ptr<Listener> listener;
  std::unique_ptr<grpc::experimental::ExternalConnectionAcceptor> acceptor;
  std::unique_ptr<grpc::Server> server;
  std::optional<HealthWatch> health;

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

  void Watch() {
    health.emplace(
        *store->database, *server->GetHealthCheckService(), names, [this] { TendListener(); },
        [this] {
          if (store->cluster.has_value() && !store->cluster->Running()) {
            store->cluster->Start().IgnoreError();  // its log says why; the next second tries again
          }
        });
  }

  void Listen() {
    listener->Start([this](int listening, int connection) {
      grpc::experimental::ExternalConnectionAcceptor::NewConnectionParameters parameters;
      parameters.listener_fd = listening;
      parameters.fd = connection;
      acceptor->HandleNewConnection(&parameters);
    });
  }

  // A machine that is busy may take long; one that never answers is replaced.
  void TendListener() {
    constexpr int kMisses = 3;
    if (listener->Answers(std::chrono::seconds(1))) {
      missed = 0;
      return;
    }
    if (++missed < kMisses) return;
    missed = 0;
    const absl::Status replaced = listener->Replace();
    spdlog::error("listener answers=false replaced={}", replaced.ok());
  }

  int missed = 0;  // answers of the listener, one after the other; the health thread's
};

Server::Server(std::unique_ptr<Parts> parts) : parts_(std::move(parts)) {}

absl::StatusOr<std::unique_ptr<Server>> Server::Start(const Configuration& configuration) {
  RETURN_IF_ERROR(Validate(configuration));
  ASSIGN_OR_RETURN(const TlsFiles tls, ReadTlsFiles(configuration));
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, Purpose::kServe));
  auto parts = std::make_unique<Parts>();
  ASSIGN_OR_RETURN(parts->listener, Listener::Open(configuration.listen));
  parts->shutdown_seconds = configuration.shutdown_seconds;
  parts->store = std::move(store);

  grpc::EnableDefaultHealthCheckService(true);
  grpc::reflection::InitProtoReflectionServerBuilderPlugin();
  grpc::ServerBuilder builder;
  parts->acceptor = builder.experimental().AddExternalConnectionAcceptor(
      grpc::ServerBuilder::experimental_type::ExternalConnectionType::FROM_FD, Credentials(tls));
  Bound(builder, configuration.threads);
  parts->Serve(builder);
  parts->server = builder.BuildAndStart();
  if (parts->server == nullptr) {
    return WrongState("SERVER", "rowproofd", "gRPC does not start; its words in the log say why.");
  }
  parts->Listen();
  parts->Watch();
  return std::unique_ptr<Server>(new Server(std::move(parts)));
}

Server::~Server() {
  if (parts_->store->cluster.has_value()) parts_->store->cluster->GiveUp();
  parts_->health.reset();
  parts_->listener->Stop();
  const std::chrono::seconds granted(parts_->shutdown_seconds);
  // gRPC cancels what still runs then, which a statement that waits for a lock does not hear of.
  parts_->store->database->EndAt(std::chrono::steady_clock::now() + granted);
  parts_->server->Shutdown(std::chrono::system_clock::now() + granted);
  parts_->server->Wait();
  // The cluster belongs to the server, even if another process started it: a killed server leaves
  // it running.
  parts_->store->started_here = parts_->store->cluster.has_value();
}

std::string Server::address() const { return parts_->listener->address(); }

absl::StatusOr<int> MigrateOnly(const Configuration& configuration) {
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, Purpose::kMigrate));
  return 0;
}

absl::StatusOr<NewDesigner> CreateDesigner(const Configuration& configuration,
                                           const std::string& display_name,
                                           const std::string& mail_address) {
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, Purpose::kCommand));
  ASSIGN_OR_RETURN(auto made,
                   usecases::CreateDesigner(*store->application, display_name, mail_address));
  return NewDesigner{ToString(AccountName{made.account}), made.secret};
}

absl::StatusOr<int> AllowPatterns(const Configuration& configuration, const std::string& account) {
  ASSIGN_OR_RETURN(auto name, ParseName<AccountName>("ACCOUNT", account));
  ASSIGN_OR_RETURN(auto store, OpenStore(configuration, Purpose::kCommand));
  RETURN_IF_ERROR(usecases::AllowPatterns(*store->application, name));
  return 0;
}

}  // namespace rowproof::server
