#include "desk/book/parcel.hpp"

#include <array>
#include <charconv>
#include <utility>

#include "book/tree.hpp"
#include "desk/book/carried.hpp"
#include "desk/book/saw_tree.hpp"

namespace portwright::desk {
namespace {

using base::ErrorCode;

constexpr const char* parcel_format = "portwright saw parcel 2";
constexpr const char* first_format = "portwright saw parcel 1";
constexpr int deepest_line = book::deepest_tree + 4;
constexpr std::string_view base64_begins = R"({"base64":")";
constexpr std::size_t longest_head = 1000;

constexpr std::array<std::pair<std::string_view, std::string_view>, 4> carried = {
    {{"application/toml", ".toml"},
     {"image/jpeg", ".jpg"},
     {"image/png", ".png"},
     {"application/octet-stream", ".bin"}}};

tl::unexpected<base::Error> no_parcel() {
  return base::fail(ErrorCode::unknown_format, "This is no saw that portwright book export wrote.", {},
                    "A saw file is taken with portwright book add.");
}

tl::unexpected<base::Error> broken(const std::string& what) {
  return base::fail(ErrorCode::damaged, "This file " + what + '.');
}

std::string numbered(std::size_t index) { return "Kept file " + std::to_string(index + 1); }

std::optional<std::size_t> number_at(const book::Tree& tree, const char* name) {
  const std::string text = text_at(tree, name);
  std::size_t out = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), out);
  if (error != std::errc() || end != text.data() + text.size() || text.empty()) return std::nullopt;
  return out;
}

// The next line, without its end; none when nothing is left.
std::optional<std::string_view> next_line(std::string_view& rest) {
  if (rest.empty()) return std::nullopt;
  const std::size_t end = std::min(rest.find('\n'), rest.size());
  const std::string_view line = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return line;
}

// {"base64":"...","hash":"...","type":"..."}: the long part is not read as a tree, which has a cap.
std::optional<Parcel::File> file_of(std::string_view line, std::string_view text) {
  if (!line.starts_with(base64_begins)) return std::nullopt;
  const std::size_t end = line.find('"', base64_begins.size());
  if (end == std::string_view::npos || line.substr(end, 2) != "\",") return std::nullopt;
  const auto rest = book::parse_tree('{' + std::string(line.substr(end + 2)));
  if (!rest || rest->parts.size() != 2) return std::nullopt;
  return Parcel::File{text_at(*rest, "hash"), text_at(*rest, "type"),
                      static_cast<std::size_t>(line.data() - text.data()) + base64_begins.size(),
                      end - base64_begins.size()};
}

// Each file once, so that nothing is found wrong after something was taken.
base::Result<Parcel> looked_at(Parcel parcel) {
  for (std::size_t i = 0; i < parcel.files.size(); ++i) {
    if (ending_of(parcel.files[i].type).empty())
      return broken("brings something that is no picture and no saw file (" + numbered(i) + ")");
    if (auto one = parcel.file(i); !one) return tl::unexpected(one.error());
  }
  return parcel;
}

base::Result<Parcel> by_lines(std::shared_ptr<const std::string> text, const book::Tree& head, std::string_view rest) {
  const auto documents = number_at(head, "documents"), files = number_at(head, "files");
  if (!documents || !files) return broken("does not say how much it holds");
  Parcel out;
  out.text = std::move(text);
  for (std::size_t i = 0; i < *documents; ++i) {
    const auto line = next_line(rest);
    if (!line) return broken("ends too early: documents are missing");
    auto one = documents_from(*line);
    if (!one || one->size() != 1) return broken("has a line that is no document (" + std::to_string(i + 2) + ")");
    out.documents.push_back(std::move(one->front()));
  }
  for (std::size_t i = 0; i < *files; ++i) {
    const auto line = next_line(rest);
    if (!line) return broken("ends too early: kept files are missing");
    auto one = file_of(*line, *out.text);
    if (!one) return broken("has a line that is no kept file (" + std::to_string(*documents + i + 2) + ")");
    out.files.push_back(std::move(*one));
  }
  if (!rest.empty()) return broken("goes on after its end");
  return looked_at(std::move(out));
}

// Format 1: one JSON object.
base::Result<Parcel> by_tree(const book::Tree& tree) {
  Parcel out;
  if (const book::Tree* documents = book::find(tree, "documents"))
    for (const book::Part& part : documents->parts) {
      auto one = documents_from(book::print(part.tree));
      if (!one || one->size() != 1) return broken("has something that is no document (" + part.name + ")");
      out.documents.push_back(std::move(one->front()));
    }
  auto text = std::make_shared<std::string>();
  if (const book::Tree* files = book::find(tree, "blobs"))
    for (const book::Part& part : files->parts) {
      const std::string packed = text_at(part.tree, "base64");
      const auto bytes = from_base64(packed);
      if (!bytes) return base::fail(ErrorCode::damaged, part.name + " of this file is no base 64.");
      out.files.push_back({book::hash_of(*bytes), text_at(part.tree, "type"), text->size(), packed.size()});
      *text += packed;
    }
  out.text = std::move(text);
  return looked_at(std::move(out));
}

}  // namespace

std::string ending_of(std::string_view type) {
  for (const auto& [name, ending] : carried)
    if (name == type) return std::string(ending);
  return {};
}

std::string type_of(std::string_view ending) {
  for (const auto& [name, own] : carried)
    if (own == ending) return std::string(name);
  return {};
}

base::Result<book::NewBlob> Parcel::file(std::size_t index) const {
  const File& one = files[index];
  auto bytes = from_base64(std::string_view(*text).substr(one.at, one.size));
  if (!bytes) return base::fail(ErrorCode::damaged, numbered(index) + " of this file is no base 64.");
  if (bytes->size() > most_blob_bytes || book::hash_of(*bytes) != one.hash)
    return base::fail(ErrorCode::damaged, numbered(index) + " of this file is not what its hash says.");
  return book::NewBlob{std::move(*bytes), one.type};
}

book::BlobSource Parcel::source() const {
  return {files.size(), [files = files, text = text](std::size_t index) {
            Parcel held;
            held.files = files;
            held.text = text;
            return held.file(index);
          }};
}

base::Result<std::string> parcel_text(const std::vector<book::Document>& documents, const book::BlobSource& files) {
  book::Tree head;
  put_part(head, "format", text_leaf(parcel_format));
  put_part(head, "documents", text_leaf(std::to_string(documents.size())));
  put_part(head, "files", text_leaf(std::to_string(files.count)));
  std::string out = book::print(head) + '\n' + document_lines(documents);
  for (std::size_t i = 0; i < files.count; ++i) {
    const auto one = files.read(i);
    if (!one) return tl::unexpected(one.error());
    book::Tree rest;
    put_part(rest, "hash", text_leaf(book::hash_of(one->bytes)));
    put_part(rest, "type", text_leaf(one->type));
    out += std::string(base64_begins) + to_base64(one->bytes) + "\"," + book::print(rest).substr(1) + '\n';
    if (one->bytes.size() > most_blob_bytes || out.size() > most_parcel_bytes)
      return base::fail(ErrorCode::out_of_range,
                        "With its photos the saw is longer than the " + std::to_string(most_parcel_bytes >> 20U) +
                            " MiB that one file may have.",
                        {}, "Export the whole book instead: portwright book export FOLDER.");
  }
  return out;
}

base::Result<Parcel> parcel_from(std::string text) {
  auto shared = std::make_shared<const std::string>(std::move(text));
  std::string_view rest = *shared;
  const std::string_view line = next_line(rest).value_or(std::string_view());
  if (line.size() <= longest_head) {
    const auto head = book::parse_tree(line);
    if (head && text_at(*head, "format") == parcel_format) return by_lines(std::move(shared), *head, rest);
  }
  std::string_view all = *shared;
  while (all.ends_with('\n')) all.remove_suffix(1);
  const auto tree = book::parse_tree(all, deepest_line);
  if (!tree || text_at(*tree, "format") != first_format) return no_parcel();
  return by_tree(*tree);
}

}  // namespace portwright::desk
