#include "base/error.hpp"

namespace portwright::base {

const char* code_name(ErrorCode code) {
  switch (code) {
    case ErrorCode::usage:
      return "usage";
    case ErrorCode::unreadable:
      return "unreadable";
    case ErrorCode::wrong_unit:
      return "wrong_unit";
    case ErrorCode::out_of_range:
      return "out_of_range";
    case ErrorCode::contradiction:
      return "contradiction";
    case ErrorCode::impossible:
      return "impossible";
    case ErrorCode::not_a_saw_file:
      return "not_a_saw_file";
    case ErrorCode::unknown_key:
      return "unknown_key";
    case ErrorCode::unknown_format:
      return "unknown_format";
    case ErrorCode::bad_cut:
      return "bad_cut";
    case ErrorCode::not_found:
      return "not_found";
    case ErrorCode::storage:
      return "storage";
    case ErrorCode::busy:
      return "busy";
    case ErrorCode::conflict:
      return "conflict";
    case ErrorCode::damaged:
      return "damaged";
    case ErrorCode::newer:
      return "newer";
    case ErrorCode::fault:
      return "fault";
  }
  return "fault";
}

int exit_status(ErrorCode code) {
  switch (code) {
    case ErrorCode::fault:
      return 1;
    case ErrorCode::usage:
      return 2;
    case ErrorCode::not_found:
      return 5;
    case ErrorCode::busy:
    case ErrorCode::conflict:
      return 6;
    case ErrorCode::storage:
      return 7;
    default:
      return 4;
  }
}

}  // namespace portwright::base
