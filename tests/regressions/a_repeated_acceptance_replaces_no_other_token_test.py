"""Sent again, the acceptance of an invitation replaced the account's newest token in place of its first:
whoever kept the request got in again after the first token was revoked, and the owner lost another one."""

import pathlib
import sys
import unittest

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "e2e"))
import live_calls  # noqa: E402
import live_server  # noqa: E402

import grpc  # noqa: E402
from rowproof.v1 import account_service_pb2 as accounts  # noqa: E402
from rowproof.v1 import pattern_service_pb2 as patterns  # noqa: E402
from rowproof.v1 import test_call_service_pb2 as calls  # noqa: E402


class RepeatedAcceptanceTest(live_calls.LiveTest):
    def ways(self):
        """For a seat and for an editor: the method of nobody signed in, and its request."""
        seat = self.offer(self.call())
        yield self.nobody.calls.TakeSeat, calls.TakeSeatRequest(
            invitation=seat.invitation, display_name="Rita Repeat",
            request_id=live_server.request_id())
        editor = self.designer.patterns.CreateEditor(
            patterns.CreateEditorRequest(parent=self.pattern()))
        yield self.nobody.patterns.AcceptEditorInvitation, patterns.AcceptEditorInvitationRequest(
            invitation=editor.invitation, display_name="Rita Repeat",
            request_id=live_server.request_id())

    def is_valid(self, secret):
        try:
            live_calls.Caller(self.server, secret).accounts.GetMyAccount(
                accounts.GetMyAccountRequest())
        except grpc.RpcError as error:
            self.assertEqual(grpc.StatusCode.UNAUTHENTICATED, error.code())
            return False
        return True

    def two_tokens(self, accept, request):
        first = accept(request).secret
        account = live_calls.Caller(self.server, first).accounts
        name, = [token.name for token in account.ListTokens(accounts.ListTokensRequest()).tokens]
        other = account.CreateToken(accounts.CreateTokenRequest(label="laptop")).secret
        return first, name, other

    def test_the_first_token_is_replaced_and_the_other_stays(self):
        for accept, request in self.ways():
            first, _, other = self.two_tokens(accept, request)
            again = accept(request).secret
            self.assertEqual([False, True, True],
                             [self.is_valid(secret) for secret in (first, again, other)])

    def test_a_revoked_first_token_is_not_given_back(self):
        for accept, request in self.ways():
            first, name, other = self.two_tokens(accept, request)
            live_calls.Caller(self.server, other).accounts.RevokeToken(
                accounts.RevokeTokenRequest(name=name))
            details = self.refused(grpc.StatusCode.FAILED_PRECONDITION, accept, request)
            self.assertEqual("TOKEN_REVOKED", self.reason(details))
            self.assertEqual([False, True], [self.is_valid(first), self.is_valid(other)])


if __name__ == "__main__":
    unittest.main()
