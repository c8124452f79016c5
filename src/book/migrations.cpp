#include "book/migrations.hpp"

#include <array>

namespace portwright::book {
namespace {

#define BOOK_SEARCH_1 \
  "CREATE VIRTUAL TABLE search USING fts5(title, words, tokenize = 'unicode61 remove_diacritics 2', prefix = '2 3')"

constexpr const char* schema_1 = R"sql(
CREATE TABLE document (
  number INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  kind TEXT NOT NULL,
  belongs_to TEXT NOT NULL,
  title TEXT NOT NULL,
  hidden INTEGER NOT NULL,
  concealed INTEGER NOT NULL,
  revision INTEGER NOT NULL,
  created TEXT NOT NULL,
  changed TEXT NOT NULL,
  author TEXT NOT NULL,
  body TEXT NOT NULL
) STRICT;
CREATE INDEX document_kind ON document(kind, id);
CREATE INDEX document_owner ON document(belongs_to, id);
CREATE TABLE facet (
  key TEXT NOT NULL,
  value TEXT NOT NULL,
  document INTEGER NOT NULL REFERENCES document(number),
  PRIMARY KEY (key, value, document)
) STRICT, WITHOUT ROWID;
CREATE INDEX facet_document ON facet(document);
CREATE TABLE action (
  number INTEGER PRIMARY KEY,
  token TEXT NOT NULL UNIQUE,
  root INTEGER NOT NULL,
  author TEXT NOT NULL,
  at TEXT NOT NULL,
  label TEXT NOT NULL,
  client TEXT NOT NULL,
  off_stack INTEGER NOT NULL
) STRICT;
CREATE INDEX action_root ON action(root);
CREATE TABLE journal (
  sequence INTEGER PRIMARY KEY,
  action INTEGER NOT NULL REFERENCES action(number),
  document TEXT NOT NULL,
  path TEXT NOT NULL,
  before TEXT,
  after TEXT,
  chain TEXT NOT NULL
) STRICT;
CREATE INDEX journal_place ON journal(document, path, sequence);
CREATE INDEX journal_action ON journal(action);
CREATE TABLE root (
  action INTEGER PRIMARY KEY REFERENCES action(number),
  author TEXT NOT NULL,
  state INTEGER NOT NULL
) STRICT;
CREATE INDEX root_stack ON root(author, state, action);
CREATE TABLE blob (
  hash TEXT PRIMARY KEY,
  type TEXT NOT NULL,
  size INTEGER NOT NULL,
  bytes BLOB NOT NULL
) STRICT;
CREATE TABLE fact (
  key TEXT PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE standing (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  sequence INTEGER NOT NULL,
  chain TEXT NOT NULL,
  next INTEGER NOT NULL,
  documents INTEGER NOT NULL,
  entries INTEGER NOT NULL,
  blobs INTEGER NOT NULL
) STRICT;
INSERT INTO standing VALUES (1, 0, '', 1, 0, 0, 0);
)sql" BOOK_SEARCH_1;

constexpr std::array<const char*, 1> all{schema_1};

}  // namespace

std::span<const char* const> migrations() { return all; }

const char* search_table() { return BOOK_SEARCH_1; }

int newest_schema() { return static_cast<int>(all.size()); }

}  // namespace portwright::book
