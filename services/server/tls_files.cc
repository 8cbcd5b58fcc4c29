#include "services/server/tls_files.h"

#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509.h>
#include <spdlog/spdlog.h>

#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <system_error>

#include "fmt/format.h"
#include "services/domain/errors.h"
#include "services/domain/status_macros.h"

namespace rowproof::server {
namespace {

constexpr char kCertificate[] = "--tls-certificate";
constexpr char kKey[] = "--tls-key";
constexpr char kAuthorities[] = "--client-certificates";

using Certificate = std::unique_ptr<X509, decltype(&X509_free)>;
using PrivateKey = std::unique_ptr<EVP_PKEY, decltype(&EVP_PKEY_free)>;
using Memory = std::unique_ptr<BIO, decltype(&BIO_free)>;

absl::StatusOr<std::string> ReadFile(const char* option, const std::string& path) {
  // A folder cannot be read, and a pipe waits for who writes to it.
  std::error_code unknown;
  if (std::filesystem::exists(path, unknown) && !std::filesystem::is_regular_file(path, unknown)) {
    return InvalidField(option, path, "a file");
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) {
    return InvalidField(option, path,
                        fmt::format("a file that can be read ({})", std::strerror(errno)));
  }
  return std::string((std::istreambuf_iterator<char>(file)), std::istreambuf_iterator<char>());
}

Memory Open(const std::string& pem) {
  return Memory(BIO_new_mem_buf(pem.data(), static_cast<int>(pem.size())), &BIO_free);
}

// A server has nobody to ask for a password.
int NoPassword(char*, int, int, void*) { return -1; }

Certificate FirstCertificate(const std::string& pem) {
  return Certificate(PEM_read_bio_X509(Open(pem).get(), nullptr, &NoPassword, nullptr), &X509_free);
}

absl::StatusOr<std::string> ReadCertificates(const char* option, const std::string& path) {
  ASSIGN_OR_RETURN(auto pem, ReadFile(option, path));
  if (FirstCertificate(pem) == nullptr) {
    return InvalidField(option, path, "a PEM file with a certificate");
  }
  return pem;
}

// Clients refuse it, and a clock may be wrong: no reason not to start.
void WarnOfItsTime(const X509& certificate, const std::string& path) {
  if (X509_cmp_current_time(X509_get0_notAfter(&certificate)) < 0) {
    spdlog::warn("certificate expired=true file={}", path);
  } else if (X509_cmp_current_time(X509_get0_notBefore(&certificate)) > 0) {
    spdlog::warn("certificate valid_yet=false file={}", path);
  }
}

}  // namespace

absl::StatusOr<TlsFiles> ReadTlsFiles(const Configuration& configuration) {
  TlsFiles files;
  if (configuration.tls_certificate_file.empty()) return files;
  ASSIGN_OR_RETURN(files.certificate,
                   ReadCertificates(kCertificate, configuration.tls_certificate_file));
  ASSIGN_OR_RETURN(files.key, ReadFile(kKey, configuration.tls_key_file));
  const PrivateKey key(
      PEM_read_bio_PrivateKey(Open(files.key).get(), nullptr, &NoPassword, nullptr),
      &EVP_PKEY_free);
  if (key == nullptr) {
    return InvalidField(kKey, configuration.tls_key_file,
                        "a PEM file with a private key that needs no password");
  }
  const Certificate certificate = FirstCertificate(files.certificate);
  if (X509_check_private_key(certificate.get(), key.get()) != 1) {
    return InvalidField(kKey, configuration.tls_key_file,
                        fmt::format("the private key of the first certificate in {}",
                                    configuration.tls_certificate_file));
  }
  WarnOfItsTime(*certificate, configuration.tls_certificate_file);
  if (!configuration.client_certificates_file.empty()) {
    ASSIGN_OR_RETURN(files.authorities,
                     ReadCertificates(kAuthorities, configuration.client_certificates_file));
  }
  return files;
}

}  // namespace rowproof::server
