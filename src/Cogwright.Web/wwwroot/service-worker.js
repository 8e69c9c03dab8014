// Nothing is kept while the program is being developed; the published one is service-worker.published.js.
