// The messages that open and close a transaction, as SQL text.
#ifndef ROWPROOF_STORAGE_DATABASE_BEGIN_AND_COMMIT_H_
#define ROWPROOF_STORAGE_DATABASE_BEGIN_AND_COMMIT_H_

#include <chrono>
#include <string>

#include "storage/database/admission.h"
#include "storage/database/transaction.h"

namespace pqxx {
class nontransaction;
}  // namespace pqxx

namespace rowproof::storage {

struct Connection;

// Statements that a new connection prepares once, for the messages below.
std::string PrepareAdmission();

// Sends begin, settings and admission in one message. Throws pqxx's exceptions. The root row stays
// locked until the transaction ends. For a write by one statement nothing is begun, and the scope
// names a token, as it does if it asks for a report's basis.
Admission BeginAdmitted(Connection& connection, pqxx::nontransaction& work,
                        const TransactionScope& scope, bool write,
                        std::chrono::milliseconds time_left, Moment now,
                        std::string* claimed_method, Sha256* claimed_digest);

// Sends the claim and the commit in one message.
void CommitWithClaim(pqxx::nontransaction& work, const Claim& claim, const std::string& result,
                     Moment now);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_BEGIN_AND_COMMIT_H_
