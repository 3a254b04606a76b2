pragma application_id = 1466067060;
CREATE TABLE attachments (
      hash text primary key,
      media_type text not null,
      bytes blob not null
    );
CREATE TABLE documents (
      hash text primary key,
      text text not null,
      title text not null,
      course text
    );
CREATE TABLE entries (
      seq integer primary key,
      run text not null references runs (id),
      id text not null,
      content text not null,
      received_at text not null,
      received_by text not null,
      unique (run, id)
    );
CREATE TABLE experiments (
      id text primary key,
      put_away integer not null default 0
    );
CREATE TABLE links (
      token_hash text primary key,
      person text not null references persons (id),
      role text not null,
      run text references runs (id),
      expires_at text not null
    );
CREATE TABLE migrations (
      number integer primary key,
      name text not null,
      applied_at text not null
    );
CREATE TABLE persons (
      id text primary key,
      name text not null
    );
CREATE TABLE runs (
      id text primary key,
      experiment text not null,
      version_number integer not null,
      document text not null references documents (hash),
      bench text not null,
      started_at text not null,
      foreign key (experiment, version_number) references versions (experiment, number)
    );
CREATE TABLE sessions (
      token_hash text primary key,
      person text not null references persons (id),
      role text not null,
      run text references runs (id),
      expires_at text not null
    );
CREATE TABLE settings (
      number integer primary key check (number = 1),
      content text not null
    );
CREATE TABLE spectra (
      id text primary key,
      name text not null,
      smiles text,
      state text,
      file text not null unique references attachments (hash),
      added_at text not null,
      added_by text not null,
      put_away integer not null default 0,
      form integer not null,
      fingerprint blob not null,
      bands text not null
    );
CREATE TABLE versions (
      experiment text not null references experiments (id),
      number integer not null check (number >= 1),
      document text not null references documents (hash),
      saved_at text not null,
      saved_by text not null,
      name text,
      primary key (experiment, number)
    );
insert into attachments values ('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', 'image/png', x'616263');
insert into documents values ('0c20010e2e2c45ee64acba07e93510c638d505004fa79936c1c2d1f523d4baf4', '# Benzoic acid, again
', 'Benzoic acid, again', null);
insert into documents values ('b4aa002c7eb0d90b0046a86fa4885d73bb61b8a25cbe265c1f680e0827cba116', '# Benzoic acid

Course: Practical Organic Chemistry 1

## Procedure
', 'Benzoic acid', 'Practical Organic Chemistry 1');
insert into entries values (1, 'run-of-bench-1', 'a', '{"at":"2026-02-03T10:00:00Z","by":"R. T.","id":"a","kind":"net","unit":"g","value":1.12}', '2026-02-03T12:00:00.000Z', 'R. T.');
insert into entries values (2, 'run-of-bench-1', 'b', '{"at":"2026-02-03T10:00:00Z","by":"R. T.","id":"b","kind":"net","unit":"g","value":2}', '2026-02-03T12:00:00.000Z', 'R. T.');
insert into experiments values ('experiment-1', 0);
insert into links values ('hash-1', 'person-1', 'bench', 'run-of-bench-1', '2100-01-01T00:00:00.000Z');
insert into migrations values (1, 'first', '2026-02-03T12:00:00.000Z');
insert into migrations values (2, 'spectra', '2026-02-03T12:00:00.000Z');
insert into persons values ('person-1', 'R. Tamsin');
insert into runs values ('run-of-bench-1', 'experiment-1', 1, 'b4aa002c7eb0d90b0046a86fa4885d73bb61b8a25cbe265c1f680e0827cba116', 'Bench 1', '2026-02-03T12:00:00.000Z');
insert into sessions values ('hash-2', 'person-1', 'bench', 'run-of-bench-1', '2100-01-01T00:00:00.000Z');
insert into settings values (1, '{"decimalSign":".","terms":"uk","paper":"letter","balances":[],"glassware":[]}');
insert into spectra values ('spectrum-1', 'benzoic acid', null, 'atr', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad', '2026-02-03T12:00:00.000Z', 'R. T.', 0, 1, x'0102', '[{"position_percm":1690,"share":1}]');
insert into versions values ('experiment-1', 1, 'b4aa002c7eb0d90b0046a86fa4885d73bb61b8a25cbe265c1f680e0827cba116', '2026-02-03T12:00:00.000Z', 'R. T.', null);
insert into versions values ('experiment-1', 2, '0c20010e2e2c45ee64acba07e93510c638d505004fa79936c1c2d1f523d4baf4', '2026-02-03T12:00:00.000Z', 'R. T.', 'For the class');
CREATE INDEX entries_of_run on entries (run, seq);
CREATE INDEX runs_of_experiment on runs (experiment);
CREATE TRIGGER attachments_no_delete before delete on attachments
      begin select raise(abort, 'attachments are only ever added'); end;
CREATE TRIGGER attachments_no_update before update on attachments
      begin select raise(abort, 'attachments are only ever added'); end;
CREATE TRIGGER documents_no_delete before delete on documents
      begin select raise(abort, 'documents are only ever added'); end;
CREATE TRIGGER documents_no_update before update on documents
      begin select raise(abort, 'documents are only ever added'); end;
CREATE TRIGGER entries_no_delete before delete on entries
      begin select raise(abort, 'entries are only ever added'); end;
CREATE TRIGGER entries_no_update before update on entries
      begin select raise(abort, 'entries are only ever added'); end;
CREATE TRIGGER runs_no_delete before delete on runs
      begin select raise(abort, 'runs are only ever added'); end;
CREATE TRIGGER runs_no_update before update on runs
      begin select raise(abort, 'runs are only ever added'); end;
CREATE TRIGGER spectra_no_delete before delete on spectra
      begin select raise(abort, 'spectra are only ever added'); end;
CREATE TRIGGER spectra_no_update before update of id, file, added_at, added_by on spectra
      begin select raise(abort, 'spectra are only ever added'); end;
CREATE TRIGGER versions_no_delete before delete on versions
      begin select raise(abort, 'versions are only ever added'); end;
CREATE TRIGGER versions_no_update before update of experiment, number, document, saved_at, saved_by on versions
      begin select raise(abort, 'versions are only ever added'); end;
