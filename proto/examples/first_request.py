#!/usr/bin/python3
"""A first program for the API: first_request.py SERVER TOKEN_FILE CHART_FILE

It creates a pattern, submits a version of it, changes the pattern's title, lists patterns page by
page, and shows a refusal. The stubs are in build/stubs (see proto/README.md). The pattern and its
yarns are invented.
"""

import sys
import uuid

sys.path.insert(0, "build/stubs")
import google

google.__path__.append("build/stubs/google")  # Debian's google package lacks google.rpc
import grpc
from google.protobuf import field_mask_pb2
from google.rpc import error_details_pb2, status_pb2
from rowproof.v1 import chart_pb2, pattern_service_pb2, pattern_service_pb2_grpc, yarn_pb2


def print_refusal(error):
    """The field that is refused, and the reason."""
    print(error.code().name)
    details = dict(error.trailing_metadata())["grpc-status-details-bin"]
    for detail in status_pb2.Status.FromString(details).details:
        for kind in (error_details_pb2.ErrorInfo, error_details_pb2.BadRequest):
            if detail.Is(kind.DESCRIPTOR):
                message = kind()
                detail.Unpack(message)
                print(message)


def main(address, token_file, chart_file):
    with open(token_file, encoding="utf-8") as file:
        who = [("authorization", "Bearer " + file.read().strip())]
    options = [("grpc.max_receive_message_length", 64 << 20)]
    patterns = pattern_service_pb2_grpc.PatternServiceStub(grpc.insecure_channel(address, options))

    pattern = patterns.CreatePattern(
        pattern_service_pb2.CreatePatternRequest(
            title="Reed Mat (an invented pattern)", request_id=str(uuid.uuid4())),
        metadata=who, timeout=10)

    request = pattern_service_pb2.CreateVersionRequest(
        parent=pattern.name, note="first", request_id=str(uuid.uuid4()))
    design = request.content.design
    design.technique = chart_pb2.TECHNIQUE_SPIKE
    design.facing = chart_pb2.FACING_TWO_FACE
    design.ends = chart_pb2.ENDS_CUT
    with open(chart_file, "rb") as file:
        design.file.content = file.read()
    materials = request.content.materials
    materials.gauge.stitches_per_decimetre = 15.0
    materials.gauge.rows_per_decimetre = 17.0
    for role in (yarn_pb2.YARN_ROLE_A, yarn_pb2.YARN_ROLE_B):
        yarn = materials.yarns.add(role=role).yarn
        yarn.weight_class = 4
        yarn.ball_band.length_m, yarn.ball_band.mass_g = 85, 50
    version = patterns.CreateVersion(request, metadata=who, timeout=30)
    print(version.name, "workable" if version.check.workable else "draft")
    for finding in version.check.findings:
        print(finding.sentence)
    for estimate in version.estimates:
        for yarn in estimate.yarns:
            print("%s, yarn %s: print %d m" % (
                estimate.size, yarn_pb2.YarnRole.Name(yarn.role).rsplit("_", 1)[1],
                yarn.published_length_m))

    # The etag in `pattern` is sent too: a change by somebody else in the meantime is ABORTED.
    pattern.title = "Reed Mat, square (an invented pattern)"
    pattern = patterns.UpdatePattern(
        pattern_service_pb2.UpdatePatternRequest(
            pattern=pattern, update_mask=field_mask_pb2.FieldMask(paths=["title"])),
        metadata=who, timeout=10)

    page = pattern_service_pb2.ListPatternsRequest(page_size=100)
    while True:
        answer = patterns.ListPatterns(page, metadata=who, timeout=10)
        for item in answer.patterns:
            print(item.name, item.title)
        page.page_token = answer.next_page_token
        if not page.page_token:
            break

    materials.gauge.rows_per_decimetre = float("nan")
    request.request_id = str(uuid.uuid4())
    try:
        patterns.CreateVersion(request, metadata=who, timeout=30)
    except grpc.RpcError as error:
        print_refusal(error)


if __name__ == "__main__":
    if len(sys.argv) != 4:
        sys.exit(__doc__)
    main(*sys.argv[1:])
