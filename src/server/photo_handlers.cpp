// Photos: taken in as bytes, named, put out of sight, given as bytes.
#include <charconv>

#include "desk/book.hpp"
#include "server/answering.hpp"
#include "server/handlers.hpp"

namespace portwright::server {
namespace {

// Whether one of the marks that the asker names is this one. A weak mark is as good: the bytes are the same.
bool has(const Request& request, const std::string& hash) {
  for (const std::string& line : values_of(request.headers, "If-None-Match"))
    if (!hash.empty() && line.find('"' + hash + '"') != std::string::npos) return true;
  return false;
}

// The hash that the asker names first, to be held against what is kept before it is read.
std::string known_to(const Request& request) {
  const std::string line = value_of(request.headers, "If-None-Match");
  const std::size_t begin = line.find('"');
  const std::size_t end = begin == std::string::npos ? begin : line.find('"', begin + 1);
  return end == std::string::npos ? std::string() : line.substr(begin + 1, end - begin - 1);
}

std::optional<std::int64_t> number_of(const std::string& text) {
  std::int64_t out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  if (error != std::errc() || end != text.data() + text.size() || out < 0) return std::nullopt;
  return out;
}

}  // namespace

Response do_photo(const Call& call) {
  const std::string saw = query_value(call.request, "saw");
  if (auto refused = Screen().id(saw).refusal()) return *refused;
  desk::BookPhotoRequest request;
  request.book = call.book.path;
  request.saw = saw;
  request.bytes = call.request.body;
  request.by = {call.author, own_word(call, query_value(call.request, "token")),
                own_word(call, query_value(call.request, "client"))};
  return reply(desk::book_photo(request));
}

Response do_caption(const Call& call) {
  return with<wire::DoCaption>(call, [&](const wire::DoCaption& ask) {
    if (auto refused = Screen().id(ask.photo, "photo").refusal()) return *refused;
    const auto base = number_of(ask.base);
    if (!base && !ask.base.empty())
      return problem(base::Errors{{base::ErrorCode::usage, "This is no revision of a photo.", "base", "", {}}});
    return reply(desk::book_caption({call.book.path, ask.photo, ask.text, base, hand(call, ask)}));
  });
}

Response do_hide_photo(const Call& call) {
  return with<wire::DoHidePhoto>(call, [&](const wire::DoHidePhoto& ask) {
    if (auto refused = Screen().id(ask.photo, "photo").refusal()) return *refused;
    return reply(desk::book_hide_photo({call.book.path, ask.photo, hand(call, ask)}));
  });
}

Response photo_picture(const Request& request, const Standing& book) {
  const std::string path = path_of(request), id = path.substr(path.rfind('/') + 1);
  const std::string size = query_value(request, "size");
  if (auto refused = Screen().id(id, "photo").refusal()) return *refused;
  if (size != "small" && size != "whole" && !size.empty())
    return problem(base::Errors{{base::ErrorCode::usage, "A photo is small or whole.", "size", "", {}}});
  auto picture = desk::book_picture({book.path, id, size == "small", known_to(request)});
  if (!picture) return problem(base::Errors{picture.error()});
  Response out;
  out.headers.emplace_back("ETag", '"' + picture->hash + '"');
  out.headers.emplace_back("Cache-Control", "private, no-cache");
  if (picture->bytes.empty() || has(request, picture->hash)) {
    out.status = 304;
    return out;
  }
  out.headers.emplace_back("Content-Type", "image/jpeg");
  out.headers.emplace_back("Content-Security-Policy", "sandbox; default-src 'none'");
  out.headers.emplace_back("Content-Disposition", "inline");
  out.body = std::move(picture->bytes);
  return out;
}

}  // namespace portwright::server
