#include "cli/batch_command.hpp"

#include <charconv>
#include <iostream>

#include "cli/progress.hpp"
#include "cli/saying.hpp"
#include "cli/turning.hpp"
#include "desk/batch.hpp"

namespace portwright::cli {
namespace {

// "2/8".
base::Result<std::pair<int, int>> part_of(const Words& words) {
  const std::string text = words.value("--part");
  std::pair<int, int> out{1, 1};
  if (text.empty()) return out;
  const char* const end = text.data() + text.size();
  const auto first = std::from_chars(text.data(), end, out.first);
  if (first.ec == std::errc() && first.ptr != end && *first.ptr == '/') {
    const auto second = std::from_chars(first.ptr + 1, end, out.second);
    if (second.ec == std::errc() && second.ptr == end) return out;
  }
  return base::fail(base::ErrorCode::usage, "\u201C" + text + "\u201D is no part.", "part", "As in --part 2/8.");
}

}  // namespace

Command batch_command() {
  return {"batch",
          "many cases at many speeds: lines of JSON in, lines of JSON out",
          "A line in is {\"file\": \"larch.saw.toml\", \"cuts\": \"roof exhaust +0.5 mm\", \"rpm\": 9000, \"id\": "
          "\"a1\"}; "
          "cuts and id may be left out. Its answer is one line, in the same order, and hangs on that line alone. What "
          "cannot be answered says so in its place. Ctrl-C keeps what is there, and --go-on goes on from it.",
          {{"FILE", true, "lines of JSON; - is standard input", Offers::files, {}, false}},
          {{"--output", "-o", "FILE", "where the answers go; else standard output", {}, Offers::files},
           {"--go-on", "", "", "leave out what the output answers already", {}, Offers::nothing},
           {"--part", "", "K/N", "every Nth line, from the Kth on", {}, Offers::nothing}},
          {{"portwright batch cases.jsonl -o answers.jsonl --go-on", "as long as it takes, in several goes"},
           {"portwright batch cases.jsonl --part 2/8 -o answers.2.jsonl", "one share of eight"}},
          false};
}

int run_batch(const Words& words) {
  const bool json = words.has("--json");
  const auto part = part_of(words);
  if (!part) return say_errors({part.error()}, json);
  desk::BatchRequest request;
  request.input = words.argument(0);
  request.output = words.value("--output");
  request.go_on = words.has("--go-on");
  request.part = part->first;
  request.of = part->second;
  request.book = words.value("--book");
  const auto count = [&] {
    const StopSignals signals;
    Progress progress(is_coloured(Stream::error));
    return desk::batch(request, [&](int done, int all) {
      return progress(all > 0 ? static_cast<double>(done) / all : 1.0,
                      std::to_string(done) + " of " + std::to_string(all));
    });
  }();
  if (!count) return say_errors({count.error()}, json);
  if (count->failed > 0)
    std::cerr << count->failed << " of " << count->lines << " lines could not be answered; each says why.\n";
  return count->stopped ? exit_stopped : 0;
}

}  // namespace portwright::cli
