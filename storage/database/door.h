// The messages that open and close a transaction, as SQL text.
#ifndef ROWPROOF_STORAGE_DATABASE_DOOR_H_
#define ROWPROOF_STORAGE_DATABASE_DOOR_H_

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
std::string PrepareDoor();

// Sends begin, settings and admission in one message. Throws pqxx's exceptions. The root row stays
// locked until the transaction ends. For a write by one statement nothing is begun, and the door
// names a token, as it does if it asks for a report's ground.
Admission OpenDoor(Connection& connection, pqxx::nontransaction& work, const Door& door, bool write,
                   std::chrono::milliseconds time_left, Moment now, std::string* claimed_method,
                   Sha256* claimed_digest);

// Sends the claim and the commit in one message.
void CloseDoor(pqxx::nontransaction& work, const Claim& claim, const std::string& result,
               Moment now);

}  // namespace rowproof::storage

#endif  // ROWPROOF_STORAGE_DATABASE_DOOR_H_
