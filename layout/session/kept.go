package session

type form struct{}
